package schema

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

const finding = `{"code": "coverage-gap", "severity": "error", "message": "nothing is said",
 "platform": "H7", "position": "Front damper",
 "configurations": 12, "on_the_road": 310.5,
 "where": [{"years": [[2009, 2012]], "traits": {"Front suspension": ["Air beam"], "Lift axle": [null]}}],
 "example": {"year": 2009, "traits": {"Front suspension": "Air beam", "Lift axle": null}},
 "cells": [{"file": "fitment.xlsx", "sheet": "Fitment H7", "cell": "F14"}],
 "fix": "fill the cell"}`

func findings(list ...string) string {
	return `{"findings": [` + strings.Join(list, ",") + `], "summary": {"error": 1, "warning": 0, "note": 0, "accepted": 0}}`
}

const covered = `{"position": "Front damper", "configurations": 480, "fitted": 400, "none": 0, "planned": 20, "ask": 0, "conflict": 24, "gap": 36,
 "on_the_road": {"fitted": 4000.25, "none": 0, "planned": 0, "ask": 0, "conflict": 0, "gap": 9}}`

func coverage(position string) string {
	return `{"platforms": [{"platform": "H7", "configurations": 480, "on_the_road": 5200, "positions": [` + position + `]}]}`
}

func TestPublishedFilesThatAreValid(t *testing.T) {
	for _, data := range []string{
		findings(), findings(finding), findings(finding, finding),
		findings(`{"code": "sheet-ignored", "severity": "note", "message": "m"}`),
		findings(strings.Replace(finding, `"fix"`, `"part": "HD-20", "rest": 123456789012345678901234567890, "accepted": {"reason": "r", "by": "b", "until": "2028-03-31", "cell": {"file": "a.xlsx"}}, "fix"`, 1)),
		findings(`{"code": "too-irregular", "severity": "error", "message": "m", "platform": "H7", "exact": false, "example": {"year": 2009, "traits": {}}}`),
	} {
		assert.NoError(t, ValidatePublished("findings.schema.json", []byte(data)), data)
	}
	for _, position := range []string{covered, `{"position": "Front damper", "exact": false}`} {
		assert.NoError(t, ValidatePublished("coverage.schema.json", []byte(coverage(position))), position)
	}
}

func TestPublishedFilesThatAreNot(t *testing.T) {
	change := func(text, old, new string) string {
		assert.Contains(t, text, old)
		return strings.Replace(text, old, new, 1)
	}
	tests := []struct{ schema, data, want string }{
		{"nothing.schema.json", `{}`, "there is no schema called nothing.schema.json"},
		{"../rows/parts.schema.json", `{}`, "there is no schema called ../rows/parts.schema.json"},
		{"findings.schema.json", `{`, "it is no JSON: it ends too early: unexpected EOF"},
		{"findings.schema.json", `{}`, "at its top: missing properties: 'findings', 'summary'"},
		{"findings.schema.json", `{"findings": []}`, "at its top: missing properties: 'summary'"},
		{"findings.schema.json", findings() + findings(), "it is no JSON: more follows after the end"},
		{"findings.schema.json", findings(change(finding, `"fix"`, `"colour"`)), "at findings/0: additionalProperties 'colour' not allowed"},
		{"findings.schema.json", findings(finding, change(finding, `"error"`, `"fatal"`)), `at findings/1/severity: value must be one of "error", "warning", "note"`},
		{"findings.schema.json", findings(change(finding, `"configurations": 12`, `"configurations": 1.5`)), "at findings/0/configurations: expected integer, but got number"},
		{"findings.schema.json", findings(change(finding, `"fix"`, `"exact": false, "fix"`)), "at findings/0/configurations: not allowed"},
		{"findings.schema.json", findings(change(finding, `[[2009, 2012]]`, `[[2009]]`)), "at findings/0/where/0/years/0: minimum 2 items required, but found 1 items"},
		{"findings.schema.json", findings(change(finding, `[[2009, 2012]]`, `[[2009, 2012, 2013]]`)), "at findings/0/where/0/years/0: maximum 2 items required, but found 3 items"},
		{"findings.schema.json", findings(change(finding, `[[2009, 2012]]`, `[["2009", 2012]]`)), "at findings/0/where/0/years/0/0: expected integer, but got string"},
		{"findings.schema.json", findings(change(finding, `[null]`, `[]`)), "at findings/0/where/0/traits/Lift axle: minimum 1 items required, but found 0 items"},
		{"findings.schema.json", findings(change(finding, `"F14"`, `"f14"`)), "at findings/0/cells/0/cell: does not match pattern '^[A-Z]{1,3}[1-9][0-9]{0,6}$'"},
		{"findings.schema.json", findings(change(finding, `"where"`, `"rest"`)), "at findings/0: property 'where' is required, if 'configurations' property exists"},
		{"coverage.schema.json", coverage(change(covered, `"gap": 36`, `"gap": -1`)), "at platforms/0/positions/0/gap: must be >= 0 but found -1"},
		{"coverage.schema.json", coverage(change(covered, `"none": 0, `, ``)), "at platforms/0/positions/0: missing properties: 'none'"},
		{"coverage.schema.json", coverage(change(covered, `"fitted": 4000.25, `, ``)), "at platforms/0/positions/0/on_the_road: missing properties: 'fitted'"},
		{"coverage.schema.json", coverage(change(covered, `"position"`, `"exact": true, "position"`)), "at platforms/0/positions/0/exact: value must be false"},
	}
	for _, tt := range tests {
		assert.EqualError(t, ValidatePublished(tt.schema, []byte(tt.data)), tt.want)
	}
}

// TestAnswersThatAreNot holds what the schemas of answers refuse.
func TestAnswersThatAreNot(t *testing.T) {
	pick := func(way string) string {
		return `{"platform": "H7", "asked": {}, "configurations": 1, "on_the_road": 2.5, "open": [], "order": [], "positions": [
			{"position": "Front damper", "ways": [` + way + `]}]}`
	}
	assert.NoError(t, ValidatePublished("pick.schema.json", []byte(pick(`{"configurations": 1, "outcome": "conflict", "settled": false,
		"findings": [{"code": "fitment-conflict", "severity": "error", "cells": [{"file": "a.xlsx", "sheet": "Fitment", "cell": "D2"}]}]}`))))
	tests := []struct{ schema, data, want string }{
		{"pick.schema.json", pick(`{"configurations": 1, "outcome": "fitted", "settled": false, "alternatives": [[{"part": "QX-1", "quantity": 1}]]}`),
			"at positions/0/ways/0/alternatives: not allowed"},
		{"pick.schema.json", pick(`{"configurations": 1, "outcome": "fitted", "alternatives": [[{"part": "QX-1", "quantity": 0}]]}`),
			"at positions/0/ways/0/alternatives/0/0/quantity: must be >= 1 but found 0"},
		{"pick.schema.json", pick(`{"configurations": 1, "outcome": "maybe"}`),
			`at positions/0/ways/0/outcome: value must be one of "fitted", "none", "planned", "ask", "conflict", "gap", "absent"`},
		{"why.schema.json", `{"platform": "H7", "asked": {}, "configurations": 1, "on_the_road": 1, "positions": [
			{"position": "Front damper", "ways": [], "cells": [{"cell": {"file": "a.xlsx"}, "says": "QX-1"}], "others": []}]}`,
			"at positions/0/cells/0: missing properties: 'precedence'"},
		{"gaps.schema.json", `{"configurations": 1, "on_the_road": 1, "accepted": {"configurations": 0, "on_the_road": 0}, "positions": [
			{"position": "P", "coverage": "required", "configurations": 1, "on_the_road": 1, "platforms": [{"platform": "H7", "pieces": []}]}]}`,
			"at positions/0/platforms/0: property 'configurations' is required, if 'pieces' property exists"},
		{"effect.schema.json", `{"rows": [], "changes": [{"platform": "H7", "position": "P", "sets": {}}], "findings": []}`,
			"at changes/0/sets: missing properties: 'covered', 'conflicts', 'still_in_conflict', 'agrees', 'replaces', 'overruled'"},
		{"accepted.schema.json", `{"rows": [{"Finding": "coverage-gap", "By": "b"}], "accepted": [], "left_out": [], "configurations": 0, "on_the_road": 0}`,
			"at rows/0: missing properties: 'Reason'"},
		{"cells.schema.json", `{"sheets": [{"sheet": "Parts", "cells": [{"cell": "a1", "kind": "text"}]}]}`,
			"at sheets/0/cells/0/cell: does not match pattern '^[A-Z]{1,3}[1-9][0-9]{0,6}$'"},
		{"version.schema.json", `{}`, "at its top: missing properties: 'version'"},
		{"codes.schema.json", `{"codes": [{"code": "coverage-gap", "severity": "error", "summary": "s"}]}`, "at codes/0: missing properties: 'meaning'"},
	}
	for _, tt := range tests {
		assert.EqualError(t, ValidatePublished(tt.schema, []byte(tt.data)), tt.want)
	}
}
