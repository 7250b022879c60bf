package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
)

// table prints what became of mutants, each as soon as it is known.
type table struct {
	w     io.Writer
	tsv   string // a file, "" for none
	root  string // that paths are told from
	count map[string]int
}

// row adds a mutant, the i-th that its seed draws.
func (t *table) row(i int, s *site, fate string) error {
	kind := fate
	if strings.HasPrefix(fate, killed) {
		kind = killed
	}
	t.count[kind]++
	file, err := filepath.Rel(t.root, s.File)
	if err != nil {
		return err
	}
	fields := []string{fmt.Sprint(i), fmt.Sprintf("%s:%d", file, s.Line), s.Operator, short(s.Before), short(s.After), fate}
	fmt.Fprintf(t.w, "%4s  %-44s %-10s %s → %s: %s\n", fields[0], fields[1], fields[2], fields[3], fields[4], fields[5])
	return t.add(strings.Join(fields, "\t") + "\n")
}

func (t *table) add(line string) error {
	if t.tsv == "" {
		return nil
	}
	f, err := os.OpenFile(t.tsv, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	if _, err := f.WriteString(line); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}

// sum prints how many there were of each fate.
func (t *table) sum() {
	fmt.Fprintf(t.w, "%d killed, %d survived, %d timed out, %d did not compile\n", t.count[killed], t.count[survived], t.count[late], t.count[broken])
}

// short gives code on one line, cut where the rest says little.
func short(code string) string {
	const most = 60
	code = strings.Join(strings.Fields(code), " ")
	if r := []rune(code); len(r) > most {
		return string(r[:most]) + "…"
	}
	return code
}
