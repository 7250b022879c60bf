package line

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestRange reads pieces of conditions as the format page says, and writes them as ranges.
func TestRange(t *testing.T) {
	for _, c := range []struct {
		kind       Kind
		text, want string
	}{
		{Serial, "41200", "41200"},
		{Serial, " 41200 ", "41200"},
		{Serial, "00041200", "41200"},
		{Serial, "000", "0"},
		{Serial, "a 100", "A100"},
		{Serial, "A-100", "A100"},
		{Serial, "A - 0100", "A100"},
		{Serial, "ABCDEFGH123456789012345", "ABCDEFGH123456789012345"},
		{Serial, "41200-46999", "41200 to 46999"},
		{Serial, "41200 – 46999", "41200 to 46999"},
		{Serial, "41200 to 46999", "41200 to 46999"},
		{Serial, "from 41200 TO 46999", "41200 to 46999"},
		{Serial, "A-100-A-999", "A100 to A999"},
		{Serial, "A100 to a999", "A100 to A999"},
		{Serial, "from 41200", "from 41200"},
		{Serial, "41200+", "from 41200"},
		{Serial, "A100 +", "from A100"},
		{Serial, "to B450", "B0 to B450"},
		{Serial, "before B450", "B0 to B449"},
		{Serial, "41200-41200", "41200"},
		{Serial, "FROM 1", "from 1"},
		{Date, "2009-03-15", "2009-03-15"},
		{Date, "2009-03", "2009-03"},
		{Date, "March 2009", "2009-03"},
		{Date, "mar 2009", "2009-03"},
		{Date, "03/2009", "2009-03"},
		{Date, "2009-03-01 to 2009-04-30", "2009-03 to 2009-04"},
		{Date, "2009-03 to 2009-04", "2009-03 to 2009-04"},
		{Date, "2009-03-2010-05", "2009-03 to 2010-05"},
		{Date, "2009-03-15-2010-05", "2009-03-15 to 2010-05-31"},
		{Date, "Mar 2009 - Jun 2010", "2009-03 to 2010-06"},
		{Date, "03/2009-06/2010", "2009-03 to 2010-06"},
		{Date, "from 2009-03", "from 2009-03"},
		{Date, "2009-03+", "from 2009-03"},
		{Date, "2009-03-15+", "from 2009-03-15"},
		{Date, "to 2009-03", "0001-01 to 2009-03"},
		{Date, "before 2009-03", "0001-01 to 2009-02"},
		{Date, "before 2009-03-15", "0001-01-01 to 2009-03-14"},
		// The Gregorian calendar: years that are divisible by 100 have 29 February where 400
		// divides them (ISO 8601-1:2019, 3.1.1.20).
		{Date, "2008-02-29", "2008-02-29"},
		{Date, "2000-02-29", "2000-02-29"},
		{Date, "2008-02-01 to 2008-02-29", "2008-02"},
		{Date, "2009-02-01 to 2009-02-28", "2009-02"},
		{Date, "2008-02-01 to 2008-02-28", "2008-02-01 to 2008-02-28"},
		{Date, "before 2008-03", "0001-01 to 2008-02"},
		{Date, "1900-02-01 to 1900-02-28", "1900-02"},
	} {
		got, err := c.kind.Range(c.text)
		if assert.NoError(t, err, c.text) {
			assert.Equal(t, c.want, c.kind.Write(got), c.text)
			again, err := c.kind.Range(c.kind.Write(got))
			require.NoError(t, err)
			assert.Equal(t, got, again, "%q, written and read again", c.text)
		}
	}
}

// TestRangeRefused holds what is said of texts that are none: each says what to write instead.
func TestRangeRefused(t *testing.T) {
	for _, c := range []struct {
		kind       Kind
		text, want string
	}{
		{Serial, "41,200.5", "not a serial number"},
		{Serial, "41200A", "not a serial number"},
		{Serial, "41 200", "not a serial number"},
		{Serial, "-41200", "not a serial number"},
		{Serial, "ABCDEFGHI1", "more than 8 letters"},
		{Serial, "1234567890123456", "more than 15 digits"},
		{Serial, "A100-B200", "one range for each: from A100, to B200"},
		{Serial, "A100-200", "A100 to A200 where the same letters are meant"},
		{Serial, "46999-41200", "write 41200 to 46999"},
		{Serial, "after 41200", "write from 41200 where it does, or from 41201 where it does not"},
		{Serial, "before 0", "nothing is before"},
		{Date, "03/04/2009", "is 2009-04-03 to some and 2009-03-04 to others"},
		{Date, "25/04/2009", "write 2009-04-25"},
		{Date, "04/25/2009", "write 2009-04-25"},
		{Date, "04.04.2009", "write 2009-04-04"},
		{Date, "31/02/2009", "no day of the calendar"},
		{Date, "2009-02-29", "no day of the calendar"},
		{Date, "1900-02-29", "no day of the calendar"},
		{Date, "2009-13", "no month of the calendar"},
		{Date, "13/2009", "no month of the calendar"},
		{Date, "15 March 2009", "write 2009-03-15"},
		{Date, "March 15, 2009", "write 2009-03-15"},
		{Date, "3/2009", "write 2009-03"},
		{Date, "2009/3", "write 2009-03"},
		{Date, "Mar. 2009", "write 2009-03"},
		{Date, "2009/03/15", "write 2009-03-15"},
		{Date, "2009", "write 2009-01 to 2009-12"},
		{Date, "spring 2009", "not a date"},
		{Date, "2009-05 to 2009-03", "write 2009-03 to 2009-05"},
		{Date, "after 2009-03", "write from 2009-03 where it does, or from 2009-04 where it does not"},
		{Date, "after 2009-03-15", "or from 2009-03-16 where"},
	} {
		_, err := c.kind.Range(c.text)
		assert.ErrorContains(t, err, c.want, c.text)
	}
}

func TestExtent(t *testing.T) {
	got, err := Serial.Extent("B100-B450, A100-A999; A1000")
	require.NoError(t, err)
	assert.Equal(t, "A100 to A1000 or B100 to B450", Serial.Words(got))
	got, err = Date.Extent("2003-01 to 2018-12")
	require.NoError(t, err)
	assert.Equal(t, Set{{From: days(2003, 1, 1), To: days(2018, 12, 31)}}, got)
	for _, open := range []string{"from 100", "to 100", "before 100", "100+", "", " , "} {
		_, err := Serial.Extent(open)
		assert.ErrorContains(t, err, "10001 to 46999", open)
	}
	_, err = Serial.Extent("0-100")
	assert.NoError(t, err, "a closed range from the least number")
}

// FuzzRange: what is read is a range, is written as it is read, and never panics.
func FuzzRange(f *testing.F) {
	for _, s := range []string{"A-100-A-999", "2009-03-15-2010-05", "before 0", "to 2009-03", "03/04/2009", "from \xff", "İ1", "after 9999-12"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, k := range []Kind{Serial, Date} {
			r, err := k.Range(text)
			if err != nil {
				if strings.TrimSpace(err.Error()) == "" {
					t.Fatal("says nothing")
				}
				continue
			}
			if first, last := k.Ends(); r.To < r.From || r.From < first || r.To > last {
				t.Fatalf("%q is %v", text, r)
			}
			if again, err := k.Range(k.Write(r)); err != nil || again != r {
				t.Fatalf("%q is written as %q", text, k.Write(r))
			}
		}
	})
}
