// Package sat checks the compiler's answers with a SAT solver, on catalogues with
// far more configurations than could be looked at one after another. It holds tests
// only.
//
// A random catalogue is made as values of the model and checked as any other. Each
// answer is then asked again as a propositional formula: one variable says that a
// trait has a value, exactly one of a trait's variables is true, and a selector for
// each Vehicles row says that the configuration is one of its own. The formulas are
// written from the words of the workbook format; nothing of the compiler's algebra is
// used but the sets of values that rows hold.
//
// A check is one question with a yes or no answer that the compiler and the solver
// must agree on. A yes of the solver is held against all its clauses, and of its noes
// one in fifty is asked again of a solver that knows nothing yet.
//
// The ordinary test takes some seconds. The long one asks over a million questions:
//
//	go test -tags long -run TestLong -timeout 0 -v ./compiler/enumerate/sat
package sat
