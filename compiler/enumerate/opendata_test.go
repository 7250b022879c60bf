package enumerate

import (
	"compress/gzip"
	"encoding/csv"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// makes are the platforms of the open data test: from two with many models to
// two with few. Mercedes-Benz has the most, 255.
func makes() []string {
	return []string{"Chevrolet", "Mercedes-Benz", "Saab", "Rolls-Royce", "Lotus"}
}

// openTraits are the columns that become traits.
func openTraits() []string { return []string{"Model", "Drive", "Cylinders", "Fuel"} }

// sale is one combination of make, year and traits, and how many lines of the
// data have it. Values are as the data write them; blank is 'does not apply'.
type sale struct {
	make   string
	year   int
	values [4]string
	lines  int
}

// fold compares names as the format does: case folded, white space collapsed.
func fold(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }

// sales reads the data set: fuel economy of vehicles from 1984 to 2015, CC0,
// github.com/hadley/fueleconomy, from the US EPA's data.
func sales(t *testing.T) []*sale {
	file, err := os.Open(filepath.Join("..", "..", "testdata", "open", "vehicles-1984-2015.csv.gz"))
	require.NoError(t, err)
	defer file.Close()
	plain, err := gzip.NewReader(file)
	require.NoError(t, err)
	lines, err := csv.NewReader(plain).ReadAll()
	require.NoError(t, err)
	require.Len(t, lines, 33442+1)
	at := map[string]int{}
	for i, name := range lines[0] {
		at[name] = i
	}
	wanted := map[string]bool{}
	for _, m := range makes() {
		wanted[m] = true
	}
	seen := map[string]*sale{}
	var out []*sale
	for _, line := range lines[1:] {
		if !wanted[line[at["make"]]] {
			continue
		}
		year, err := strconv.Atoi(line[at["year"]])
		require.NoError(t, err)
		s := &sale{make: line[at["make"]], year: year, values: [4]string{
			line[at["model"]], line[at["drive"]], line[at["cyl"]], line[at["fuel"]]}}
		id := s.id()
		if seen[id] == nil {
			seen[id] = s
			out = append(out, s)
		}
		seen[id].lines++
	}
	return out
}

// id is the same for sales that differ in spelling only.
func (s *sale) id() string {
	return fold(strings.Join([]string{s.make, strconv.Itoa(s.year), s.values[0], s.values[1], s.values[2], s.values[3]}, "|"))
}

// product is all but the year.
func (s *sale) product() string {
	return fold(strings.Join([]string{s.make, s.values[0], s.values[1], s.values[2], s.values[3]}, "|"))
}

// declared lists the values of a trait: first spelling first, numbers in
// their order.
func declared(all []*sale, trait int) []string {
	var out []string
	seen := map[string]bool{}
	for _, s := range all {
		if v := s.values[trait]; v != "" && !seen[fold(v)] {
			seen[fold(v)] = true
			out = append(out, v)
		}
	}
	if openTraits()[trait] == "Cylinders" {
		sort.Slice(out, func(i, j int) bool {
			a, _ := strconv.Atoi(out[i])
			b, _ := strconv.Atoi(out[j])
			return a < b
		})
	}
	return out
}

func TestOpenData(t *testing.T) {
	all := sales(t)
	for seed := range uint64(usual(1, 3)) {
		b := openBook(all, seed)
		dir := t.TempDir()
		require.NoError(t, b.write(dir))
		got := compile(t, dir)
		compareOpen(t, query(t, b, all), got)
	}
}
