package data_test

import (
	"io"

	"ferrule/compiler/model"
	"ferrule/compiler/release/staff/sample"
	"ferrule/out/address"
	"ferrule/out/data"
	"ferrule/out/offer"
)

// sampled is the sample with what it is published by.
type sampled struct{ *sample.Sample }

func newSample() *sampled { return &sampled{sample.New()} }

func (s *sampled) book() *address.Book { return address.New(s.Catalogue, nil) }

// writePart writes the file of a part of the catalogue.
func (s *sampled) writePart(w io.Writer, i int) error {
	offers := offer.New(s.Catalogue, "")
	defer offers.Close()
	if err := offers.Add(s.Guide); err != nil {
		return err
	}
	p := s.Catalogue.Parts[i]
	list, err := offers.Of(p)
	if err != nil {
		return err
	}
	rules, err := offers.Rules(p)
	if err != nil {
		return err
	}
	complaints, err := offers.Against(p)
	if err != nil {
		return err
	}
	return data.PublicPart(w, p, model.NewRelations(s.Catalogue), list, rules, complaints, s.book())
}
