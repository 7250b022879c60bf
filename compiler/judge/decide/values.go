package decide

import "ferrule/compiler/space"

// Values are numbers of what a platform's vehicles have in one respect: of a trait,
// indexes of its values, Absent included; of the model year, indexes of the platform's years.
type Values space.Set
