package guide_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// typing is what is typed into the field of the question that an address leads to.
type typing struct {
	Fragment string `json:"fragment"`
	Words    string `json:"words"`
}

// typed is what became of it.
type typed struct {
	Error, Mode, Hash string
	Labelled, Invalid bool
	SoFar             []string
}

const (
	stork = "platforms/stork-5.html"
	crane = "platforms/crane-3.html"
	// toDate leads to the question for a date.
	toDate = "#?Chassis number=41350"
)

// Every vehicle is led to its parts, of each stretch by its first number or day; those that
// Breaks rule out lead nowhere.
func TestLineFinderInBrowser(t *testing.T) {
	s := lineSample(t)
	checkFinders(t, s, s.Guides)
}

// The address takes numbers and dates, and tells of vehicles that do not exist what comes near.
func TestLineFactsInBrowser(t *testing.T) {
	s := lineSample(t)
	facts := newFacts(s)
	got := drive(t, s, s.Guides, facts.fragments())
	for i, g := range s.Guides {
		t.Run(g.Platform.Name, func(t *testing.T) {
			require.Empty(t, got.Told[i].Errors)
			want := publish(t, s, g)
			facts.check(t, i, &want, got.Told[i].Seen)
		})
	}
}

// What is typed is read by the rules of cells: into a stretch, which is shown.
func TestTypedInBrowser(t *testing.T) {
	taken := map[string]map[typing]string{
		stork: {
			{"", "10001"}: "Chassis number: 10001: 10001 to 20000", {"", "20000"}: "Chassis number: 20000: 10001 to 20000",
			{"", "20001"}: "Chassis number: 20001: 20001 to 41199", {"", "41199"}: "Chassis number: 41199: 20001 to 41199",
			{"", "41200"}: "Chassis number: 41200: 41200 to 43999", {"", "46999"}: "Chassis number: 46999: 44000 to 46999",
			{"", " 0041350 "}: "Chassis number: 41350: 41200 to 43999", {"", "41200 to 43999"}: "Chassis number: 41200 to 43999",
			{toDate, "2003-01-01"}: "Built: 2003-01-01: 2003-01-01 to 2004-03-14", {toDate, "2004-03-14"}: "Built: 2004-03-14: 2003-01-01 to 2004-03-14",
			{toDate, "2004-03-15"}: "Built: 2004-03-15: 2004-03-15 to 2006-12-31", {toDate, "2006-12-31"}: "Built: 2006-12-31: 2004-03-15 to 2006-12-31",
			{toDate, "2004-02-29"}: "Built: 2004-02-29: 2003-01-01 to 2004-03-14", {toDate, "02/2004"}: "Built: 2004-02: 2003-01-01 to 2004-03-14",
			{toDate, "april 2004"}: "Built: 2004-04: 2004-03-15 to 2006-12-31", {toDate, "Dec  2006"}: "Built: 2006-12: 2004-03-15 to 2006-12-31",
		},
		crane: {
			{"", "A100"}: "Chassis number: A100: A100 to A499", {"", "a-0499"}: "Chassis number: A499: A100 to A499",
			{"", "a 00500"}: "Chassis number: A500: A500 to A999", {"", "b–450"}: "Chassis number: B450: B100 to B450",
		},
	}
	refused := map[string]map[typing]string{
		stork: {
			{"", "10000"}:             "10000 is not within 10001 to 46999. Look again; if it is so, it is no vehicle of this guide: stop and ask.",
			{"", "47000"}:             "47000 is not within 10001 to 46999. Look again; if it is so, it is no vehicle of this guide: stop and ask.",
			{"", "412"}:               "412 is not within 10001 to 46999. Look again; if it is so, it is no vehicle of this guide: stop and ask.",
			{"", "A41350"}:            "A41350 is not within 10001 to 46999. Look again; if it is so, it is no vehicle of this guide: stop and ask.",
			{"", "41 350"}:            "“41 350” is not a number as it is written here: letters, if it has any, and then digits.",
			{"", ""}:                  "Write the number as it stands on the vehicle.",
			{"", "20000 to 20001"}:    "20000 to 20001 lies in 10001 to 20000 and in 20001 to 41199. Give the number itself.",
			{"", "5 to 10001"}:        "Only a part of 5 to 10001 lies in 10001 to 20000. Give the number itself.",
			{toDate, "March 2004"}:    "2004-03 lies in 2003-01-01 to 2004-03-14 and in 2004-03-15 to 2006-12-31. Give the day, such as 2004-03-15.",
			{toDate, "2007-01"}:       "2007-01 is not within 2003-01 to 2006-12. Look again; if it is so, it is no vehicle of this guide: stop and ask.",
			{toDate, "2002-12-31"}:    "2002-12-31 is not within 2003-01 to 2006-12. Look again; if it is so, it is no vehicle of this guide: stop and ask.",
			{toDate, "03/04/2005"}:    "“03/04/2005” is 2005-04-03 to some and 2005-03-04 to others: write the one that is meant.",
			{toDate, "15/03/2005"}:    "“15/03/2005” is not a date as it is written here: write 2005-03-15.",
			{toDate, "3/2005"}:        "“3/2005” is not a date as it is written here: write 2005-03.",
			{toDate, "2005-02-29"}:    "“2005-02-29” is no date of the calendar: write a month, such as 2009-03, 03/2009 or March 2009, or a day, such as 2009-03-15.",
			{toDate, "after the war"}: "“after the war” is not a date as it is written here: write a month, such as 2009-03, 03/2009 or March 2009, or a day, such as 2009-03-15.",
		},
		crane: {
			{"", "100"}:   "100 is not within A100 to A999 or B100 to B450. Look again; if it is so, it is no vehicle of this guide: stop and ask.",
			{"", "A1000"}: "A1000 is not within A100 to A999 or B100 to B450. Look again; if it is so, it is no vehicle of this guide: stop and ask.",
			{"", "B451"}:  "B451 is not within A100 to A999 or B100 to B450. Look again; if it is so, it is no vehicle of this guide: stop and ask.",
		},
	}
	s := lineSample(t)
	told := map[string][]typing{}
	for _, words := range []map[string]map[typing]string{taken, refused} {
		for page, all := range words {
			for w := range all {
				told[page] = append(told[page], w)
			}
		}
	}
	var got struct {
		Told []struct {
			Page   string
			Seen   []typed
			Errors []string
		}
	}
	driveInto(t, s, s.Guides[:2], told, &got)
	require.Len(t, got.Told, 2)
	for _, page := range got.Told {
		require.Empty(t, page.Errors)
		require.Len(t, page.Seen, len(told[page.Page]))
		for i, seen := range page.Seen {
			checkTyped(t, page.Page, told[page.Page][i], seen, taken[page.Page], refused[page.Page])
		}
	}
}

func checkTyped(t *testing.T, page string, w typing, seen typed, taken, refused map[typing]string) {
	if want, ok := taken[w]; ok {
		assert.Empty(t, seen.Error, w)
		if assert.NotEmpty(t, seen.SoFar, w) {
			assert.Equal(t, want, seen.SoFar[len(seen.SoFar)-1], w)
		}
		return
	}
	assert.Equal(t, refused[w], seen.Error, w)
	assert.True(t, seen.Labelled, "%v: the field has a label and what describes it", w)
	assert.True(t, seen.Invalid, "%v: the field is marked, has the focus, and its error is in a live region", w)
	mode := "text"
	if page == stork && w.Fragment == "" {
		mode = "numeric"
	}
	assert.Equal(t, mode, seen.Mode, w)
	assert.Equal(t, w.Fragment, seen.Hash, "the address stays: %v", w)
}
