package decide

import "ferrule/compiler/model"

// complaints writes what complaints reads.
func (w *packer) complaints(g *Guide) {
	putList(w, g.Complaints, func(u ComplaintUse) {
		w.ref(u.Row)
		putList(w, u.Where, w.box)
		putList(w, u.Places, func(p PlaceUse) {
			w.ref(p.Position)
			putList(w, p.Where, w.box)
		})
	})
	putList(w, g.Inspections, func(u InspectionUse) {
		w.ref(u.Row)
		putList(w, u.Where, w.box)
	})
}

func (r *unpacker) complaints(g *Guide) {
	g.Complaints = getList(r, func() ComplaintUse {
		return ComplaintUse{Row: ref[*model.Complaint](r), Where: getList(r, r.box), Places: getList(r, func() PlaceUse {
			return PlaceUse{ref[*model.Position](r), getList(r, r.box)}
		})}
	})
	g.Inspections = getList(r, func() InspectionUse {
		return InspectionUse{ref[*model.Inspection](r), getList(r, r.box)}
	})
}
