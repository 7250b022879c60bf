package bind

import (
	"fmt"
	"strings"
	"time"

	"ferrule/compiler/bind/lexicon"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
)

// rules reads the Compatibility sheets.
func (b *binder) rules() {
	b.headers(schema.Compatibility)
	for _, t := range b.kinds[schema.Compatibility] {
		traits := b.traitAt(t)
		for i := range t.Records {
			b.rule(row{t, &t.Records[i]}, traits)
		}
	}
}

func (b *binder) rule(r row, traits []*model.Trait) {
	rule := &model.Rule{When: b.when(r, traits), Reason: r.text("Reason"), At: r.first(), WithAt: r.at("With"), Family: r.name("Family")}
	number := r.name("Part")
	switch {
	case number == "" && rule.Family == "":
		return // the schema says that one of them is required
	case number != "":
		rule.Part, rule.PartAt = b.partOr(number, r.at("Part")), r.at("Part")
	default:
		rule.PartAt = r.at("Family")
	}
	if rule.Family != "" && !b.families.Has(rule.Family) {
		b.unknown(finding.ReferenceUnknown, schema.Parts, "family", rule.Family, &b.families, r.at("Family"))
	}
	if with := r.name("With"); with != "" {
		rule.With = b.partOr(with, rule.WithAt)
	}
	if why := pointless(rule); why != "" {
		b.fail(finding.RuleIncomplete, rule.PartAt, "%s", why)
		return
	}
	switch r.word("Effect") {
	case model.Forbid.String():
		rule.Effect = model.Forbid
	case model.Require.String():
		rule.Effect = model.Require
		if rule.With == nil {
			b.fail(finding.RuleIncomplete, rule.WithAt, "the row requires something and does not say what; write the part that must come along under With")
			return
		}
	case model.Care.String():
		rule.Effect = model.Care
	default:
		return // the schema says what is allowed
	}
	b.cat.Rules = append(b.cat.Rules, rule)
}

// pointless says why a row would forbid, require or caution nothing; "" where it would.
func pointless(rule *model.Rule) string {
	switch p := rule.Part; {
	case p == nil || !p.Known:
		return ""
	case p == rule.With:
		return fmt.Sprintf("the row names %s under Part and under With; name the other part", p.Number)
	case rule.Family == "" || rule.About(p):
		return ""
	case p.Family == "":
		return fmt.Sprintf("%s is of no family, so a row about it and the family %s is about nothing; leave one of the two blank", p.Number, rule.Family)
	default:
		return fmt.Sprintf("%s is of the family %s, so a row about it and the family %s is about nothing; leave one of the two blank", p.Number, p.Family, rule.Family)
	}
}

// acceptances reads the Accepted sheets.
func (b *binder) acceptances() {
	b.headers(schema.Accepted)
	for _, t := range b.kinds[schema.Accepted] {
		traits := b.traitAt(t)
		for i := range t.Records {
			if a := b.acceptance(row{t, &t.Records[i]}, traits); a != nil {
				b.cat.Acceptances = append(b.cat.Acceptances, a)
			}
		}
	}
}

// acceptance reads a row of an Accepted sheet; nil where it accepts nothing, with a finding
// that says why.
func (b *binder) acceptance(r row, traits []*model.Trait) *model.Acceptance {
	a := &model.Acceptance{Code: strings.ReplaceAll(r.word("Finding"), " ", "-"), When: b.when(r, traits),
		Reason: r.text("Reason"), By: r.text("By"), At: r.first(), UntilAt: r.at("Until")}
	if a.Code == "" || a.Reason == "" || a.By == "" {
		return nil // the schema says that they are required
	}
	if !b.knownCode(a.Code) {
		list := make([]string, len(b.Codes))
		for i, c := range b.Codes {
			list[i] = string(c)
		}
		b.fail(finding.ReferenceUnknown, r.at("Finding"), "no finding has the code %q%s", a.Code, lexicon.Hint(a.Code, list))
		return nil
	}
	if name := r.name("Position"); name != "" && word.Fold(name) != "any" {
		p, ok := b.lexicon.Positions.Find(name)
		if !ok {
			b.unknown(finding.ReferenceUnknown, schema.Positions, "position", name, &b.lexicon.Positions, r.at("Position"))
			a.When.SetAside = true
		}
		a.Position = p
	}
	if number := r.name("Part"); number != "" && word.Fold(number) != "any" {
		a.Part = b.partOr(number, r.at("Part"))
	}
	if f, ok := r.field("Until"); ok {
		if a.Until = r.text("Until"); len(a.Until) > len("2006-01-02") {
			a.Until = a.Until[:len("2006-01-02")] // a date with a time of day
		}
		if f.Broken || !isDate(a.Until) {
			return nil // the schema, or the finding on the cell, says so
		}
	}
	return a
}

func (b *binder) knownCode(code string) bool {
	for _, c := range b.Codes {
		if string(c) == code {
			return true
		}
	}
	return false
}

func isDate(s string) bool {
	_, err := time.Parse(time.DateOnly, s)
	return err == nil
}
