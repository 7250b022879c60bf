package sheets

import (
	"fmt"
	"math"
	"strings"
	"time"
)

// calendar is how a workbook counts days (ECMA-376 Part 1, 18.17.4.1).
type calendar uint8

const (
	from1900  calendar = iota // 1 is 1900-01-01; 60 is 1900-02-29, which never was
	plain1900                 // 0 is 1899-12-30, without that day
	from1904                  // 0 is 1904-01-01
)

const dayMillis = 24 * 60 * 60 * 1000

const beyond = 2_958_466 // no calendar here reaches so far

// unreal is the day that the 1900 system has and the world had not.
const unreal = "1900-02-29"

// zero is the day from which days are counted; for from1900 the one that holds from
// serial 61.
func (c calendar) zero() time.Time {
	if c == from1904 {
		return time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	return time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
}

// iso gives a serial as ISO 8601, rounded to milliseconds: a date, a date with a time,
// or, below one day, a time. In the 1904 system, whose first day is 0, day tells
// whether the number format names a day. It reports false for what is no date:
// negative serials and those beyond the year 9999.
func (c calendar) iso(serial float64, day bool) (string, bool) {
	if !(serial >= 0 && serial < beyond) {
		return "", false
	}
	millis := int64(math.Round(serial * dayMillis))
	n, clock := millis/dayMillis, millis%dayMillis
	if n == 0 && !(c == from1904 && day) {
		return hours(clock), true
	}
	date := unreal
	if c != from1900 || n != 60 {
		if c == from1900 && n < 60 {
			n++
		}
		at := c.zero().AddDate(0, 0, int(n))
		if at.Year() > 9999 {
			return "", false
		}
		date = at.Format(time.DateOnly)
	}
	if clock == 0 {
		return date, true
	}
	return date + "T" + hours(clock), true
}

// hours gives milliseconds of a day as a time; a fraction only where there is one.
func hours(millis int64) string {
	return time.UnixMilli(millis).UTC().Format("15:04:05.999")
}

// elapsed gives days as hours, which go on beyond a day: 1.5 is 36:00:00. It reports false for
// what is no such time, as iso does.
func elapsed(days float64) (string, bool) {
	if !(days >= 0 && days < beyond) {
		return "", false
	}
	millis := int64(math.Round(days * dayMillis))
	const hour = 60 * 60 * 1000
	_, rest, _ := strings.Cut(hours(millis%hour), ":")
	return fmt.Sprintf("%02d:%s", millis/hour, rest), true
}

// parse reads a date that is stored as ISO 8601 and gives its serial and its text in
// the form of iso. Dates before the calendar begins have negative serials.
func (c calendar) parse(v string) (serial float64, text string, ok bool) {
	v = strings.TrimSuffix(v, "Z")
	if at, err := time.Parse("15:04:05", v); err == nil {
		clock := sinceMidnight(at)
		return float64(clock) / dayMillis, hours(clock), true
	}
	if rest, is := strings.CutPrefix(v, unreal); is && c == from1900 {
		at, err := parseDate("2000-01-01" + rest)
		return withClock(60, unreal, at, err)
	}
	at, err := parseDate(v)
	if err != nil || at.Year() < 1 {
		return 0, "", false
	}
	midnight := time.Date(at.Year(), at.Month(), at.Day(), 0, 0, 0, 0, time.UTC)
	n := (midnight.Unix() - c.zero().Unix()) / (dayMillis / 1000)
	if c == from1900 && n < 61 {
		n--
	}
	return withClock(n, midnight.Format(time.DateOnly), at, nil)
}

func parseDate(v string) (time.Time, error) {
	for _, layout := range []string{time.DateOnly, "2006-01-02T15:04"} {
		if at, err := time.Parse(layout, v); err == nil {
			return at, nil
		}
	}
	return time.Parse("2006-01-02T15:04:05", v) // takes fractions as well
}

// withClock adds the time of day of at to day n.
func withClock(n int64, date string, at time.Time, err error) (float64, string, bool) {
	if err != nil {
		return 0, "", false
	}
	clock := sinceMidnight(at)
	if clock == 0 {
		return float64(n), date, true
	}
	return float64(n) + float64(clock)/dayMillis, date + "T" + hours(clock), true
}

func sinceMidnight(at time.Time) int64 {
	return int64(at.Hour()*3600+at.Minute()*60+at.Second())*1000 + int64(at.Nanosecond()/1e6)
}
