package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/cmd/ferrule/cli"
	"ferrule/schema"
)

// answers gives command lines that print JSON, with the schema of what they print and
// their exit status.
func answers() map[string]struct {
	schema string
	status int
	args   []string
} {
	type answer = struct {
		schema string
		status int
		args   []string
	}
	return map[string]answer{
		"one vehicle": {"pick", 0, []string{"pick", "demo", "--platform", "H7", "--year", "2012", "Rear suspension=Four air springs", "Levelling=Mechanical",
			"Front suspension=Air beam", "Beam arm=Cast arm", "Front axle rating=7.1 t", "Front air line=3/8 in", "Rear air line=3/8 in", "Front tee=No tee",
			"Rear tee=No tee", "Tag axle=No tag axle", "Steering side=Left-hand", "Kneeling=n/a"}},
		"a whole platform":   {"pick", 0, []string{"pick", "demo", "--platform", "H7"}},
		"no such vehicle":    {"pick", 1, []string{"pick", "demo", "--platform", "H7", "--year", "2004", "Levelling=Electronic", "Tag axle=Lift tag"}},
		"nothing settled":    {"pick", 0, []string{"pick", "faulty", "--platform", "Q1"}},
		"why":                {"why", 0, []string{"why", "demo", "--platform", "H7", "--year", "2009", "Front suspension=Air beam"}},
		"why not":            {"why", 0, []string{"why", "demo", "--platform", "H7", "--year", "2013", "Levels while driving=Yes", "--part", "HPR-3102"}},
		"why in vain":        {"why", 1, []string{"why", "demo", "--platform", "H7", "--year", "1990"}},
		"why of the faulty":  {"why", 0, []string{"why", "faulty", "--platform", "Q1"}},
		"where":              {"where", 0, []string{"where", "demo", "HPR-1103", "th320.126.03", "P-0812A", "HPR-1590", "HPR-9141"}},
		"nowhere":            {"where", 1, []string{"where", "demo", "HPR-110", "..."}},
		"where, not settled": {"where", 0, []string{"where", "faulty", "HD-50"}},
		"fleet":              {"fleet", 1, []string{"fleet", "demo", "fleet/customer.csv"}},
		"gaps":               {"gaps", 0, []string{"gaps", "demo", "--today", today}},
		"gaps of all":        {"gaps", 0, []string{"gaps", "faulty", "--optional"}},
		"a complaint":        {"pick", 0, []string{"pick", "demo", "--platform", "H7", "--year", "2012", "--complaint", "rocks from side to side"}},
		"what if": {"effect", 0, []string{"gaps", "demo", "--if", "2 x ZZ-1 in Bell crank where Platform = H7, Front suspension = Air independent, Years = 2016+",
			"--if", "ZZ-2 in Front restrictor left where Line size = 3/8 in, Family = Flow restrictor"}},
		"what if not": {"effect", 0, []string{"gaps", "demo", "--if", "ZZ-1 in Bell crank where Years = 1990"}},
		"exist":       {"vehicles", 0, []string{"vehicles", "demo"}},
		"no fewer":    {"vehicles", 1, []string{"vehicles", "demo", "--propose", "--platform", "H7"}},
		"accept":      {"accepted", 0, []string{"accept", "demo", "--code", "all", "--reason", "r", "--by", "b", "--until", "2030-01-01", "--today", today}},
		"accept some": {"accepted", 1, []string{"accept", "faulty", "--code", "all", "--reason", "r", "--by", "b", "--until", "2030-01-01", "--today", today}},
		"accept none": {"accepted", 1, []string{"accept", "demo", "--code", "fitment-conflict", "--reason", "r", "--by", "b"}},
		"layout":      {"layout", 0, []string{"layout", "existing/chart.xlsx"}},
		"layout with": {"layout", 0, []string{"layout", "existing/list.xlsx", "--with", "demo"}},
		"no layout":   {"layout", 1, []string{"layout", "demo/parts.xlsx"}},
		"repairs":     {"repairs", 0, []string{"fix", "faulty", "--list", "--today", today}},
		"no repairs":  {"repairs", 1, []string{"fix", "demo", "--list", "--today", today}},
		"cells":       {"cells", 0, []string{"cells", "--format=json", "faulty/fitment.xlsx"}},
		"version":     {"version", 0, []string{"version"}},
		"codes":       {"codes", 0, []string{"explain"}},
		"code":        {"codes", 0, []string{"explain", "coverage-gap"}},
		"check":       {"findings", 1, []string{"check", "faulty", "--today", today}},
		"check since": {"findings", 0, []string{"check", "faulty", "--since", "faulty", "--today", today}},
		"diff":        {"diff", 1, []string{"diff", "demo", "faulty", "--today", today}},
		"no diff":     {"diff", 0, []string{"diff", "faulty", "faulty", "--fail-on", "lost", "--today", today}},
	}
}

// TestAnswersMeetTheirSchemas holds what every command prints as JSON against the schema
// of it, and the same twice over.
func TestAnswersMeetTheirSchemas(t *testing.T) {
	t.Chdir("../../testdata")
	for name, a := range answers() {
		args := a.args
		if args[0] != "cells" {
			args = append(slices.Clone(args), "--format", "json")
		}
		var first string
		for range 2 {
			var stdout, stderr bytes.Buffer
			require.Equal(t, a.status, cli.Run(context.Background(), args, &stdout, &stderr), "%s: %s", name, stderr.String())
			require.NoError(t, schema.ValidatePublished(a.schema+".schema.json", stdout.Bytes()), name)
			if first == "" {
				first = stdout.String()
			}
			require.Equal(t, first, stdout.String(), name)
		}
	}
}

// TestEverySchemaIsHeldAgainst wants a test for each schema of what is published.
func TestEverySchemaIsHeldAgainst(t *testing.T) {
	used := map[string]bool{"guide": true, "staff-guide": true, "catalogue": true, "staff-catalogue": true, "coverage": true,
		"part": true, "pages": true, "assets": true, "sheets": true, // by TestPublishedFilesMeetTheirSchemas
		"changes": true} // by TestChangesBetweenCatalogues
	for _, a := range answers() {
		used[a.schema] = true
	}
	entries, err := os.ReadDir("../../schema/published")
	require.NoError(t, err)
	for _, e := range entries {
		assert.True(t, used[strings.TrimSuffix(e.Name(), ".schema.json")], "%s is held against nothing", filepath.Base(e.Name()))
	}
}
