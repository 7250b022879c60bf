package enumerate

import (
	"database/sql"
	"testing"

	"github.com/stretchr/testify/require"
	_ "modernc.org/sqlite" // the database that recomputes everything
)

// tables are what SQLite works with; names are folded.
const tables = `
CREATE TABLE sale (make TEXT, model TEXT, year INTEGER, drive TEXT, cylinders TEXT, fuel TEXT, lines INTEGER, grouped INTEGER, product TEXT);
CREATE TABLE app (id INTEGER PRIMARY KEY, precedence INTEGER);
CREATE TABLE cell (app INTEGER, position TEXT, address TEXT, kind TEXT, say TEXT);
CREATE TABLE hit (app INTEGER, config INTEGER);
CREATE TABLE place (position TEXT, config INTEGER);
`

// spread makes one configuration of each sale. What is on the road of a row
// with several years is spread over them.
const spread = `
CREATE TABLE config AS SELECT rowid AS id, make, model, year, drive, cylinders, fuel,
	CASE WHEN grouped THEN 1.0 * SUM(lines) OVER (PARTITION BY product) / COUNT(*) OVER (PARTITION BY product)
	ELSE lines END AS road
FROM sale;
CREATE UNIQUE INDEX config_id ON config (id);
`

// settle works out which cells decide, and what comes of it.
const settle = `
CREATE TABLE decided AS SELECT * FROM (
	SELECT cell.*, hit.config, app.precedence,
		MAX(app.precedence) OVER (PARTITION BY cell.position, hit.config) AS top
	FROM cell JOIN app ON app.id = cell.app JOIN hit ON hit.app = app.id
	JOIN place ON place.position = cell.position AND place.config = hit.config
) WHERE precedence = top;
CREATE INDEX decided_at ON decided (config, position);
CREATE TABLE outcome AS SELECT place.position, place.config,
	CASE COUNT(DISTINCT say) WHEN 0 THEN 'gap' WHEN 1 THEN MIN(kind) ELSE 'conflict' END AS outcome
FROM place LEFT JOIN decided ON decided.position = place.position AND decided.config = place.config
GROUP BY place.position, place.config;
`

// figures are counts and shares by name.
type figures map[string]figure

type figure struct {
	configurations int
	road           float64
}

// answers is what SQLite says.
type answers struct {
	db                            *sql.DB
	platforms, outcomes, conflict figures
}

// query puts the data and the applications into a database and asks it.
func query(t *testing.T, b *openCatalogue, all []*sale) answers {
	db, err := sql.Open("sqlite", ":memory:")
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, db.Close()) })
	db.SetMaxOpenConns(1) // a second connection would see another memory
	do(t, db, tables)
	fillSales(t, db, b, all)
	do(t, db, spread)
	for _, p := range b.positions {
		do(t, db, "INSERT INTO place SELECT ?, id FROM config WHERE "+p.exists, p.name)
	}
	for id, a := range b.apps {
		do(t, db, "INSERT INTO app VALUES (?, ?)", id, a.precedence)
		do(t, db, "INSERT INTO hit SELECT ?, id FROM config WHERE "+a.where, id)
		for position, say := range a.says {
			do(t, db, "INSERT INTO cell VALUES (?, ?, ?, ?, ?)", id, position, a.at[position].String(), a.kinds[position], say)
		}
	}
	do(t, db, settle)
	return answers{
		db:        db,
		platforms: ask(t, db, "SELECT make, COUNT(*), SUM(road) FROM config GROUP BY make"),
		outcomes: ask(t, db, `SELECT make || '|' || position || '|' || outcome, COUNT(*), SUM(road)
			FROM outcome JOIN config ON config.id = outcome.config GROUP BY make, position, outcome`),
		conflict: ask(t, db, `SELECT make || '|' || a.position || '|' || a.address || ' & ' || b.address, COUNT(*), SUM(road)
			FROM decided a JOIN decided b ON b.config = a.config AND b.position = a.position AND b.address > a.address AND b.say <> a.say
			JOIN config ON config.id = a.config GROUP BY make, a.position, a.address, b.address`),
	}
}

func do(t *testing.T, db *sql.DB, text string, args ...any) {
	t.Helper()
	_, err := db.Exec(text, args...)
	require.NoError(t, err, text)
}

func fillSales(t *testing.T, db *sql.DB, b *openCatalogue, all []*sale) {
	tx, err := db.Begin()
	require.NoError(t, err)
	for _, s := range all {
		args := []any{fold(s.make), s.year, s.lines, b.grouped[s.product()], s.product()}
		for _, v := range s.values {
			args = append(args, sql.NullString{String: fold(v), Valid: v != ""})
		}
		_, err := tx.Exec(`INSERT INTO sale (make, year, lines, grouped, product, model, drive, cylinders, fuel)
			VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`, args...)
		require.NoError(t, err)
	}
	require.NoError(t, tx.Commit())
}

func ask(t *testing.T, db *sql.DB, text string) figures {
	t.Helper()
	rows, err := db.Query(text)
	require.NoError(t, err, text)
	defer rows.Close()
	out := figures{}
	for rows.Next() {
		var name string
		var f figure
		require.NoError(t, rows.Scan(&name, &f.configurations, &f.road))
		out[name] = f
	}
	require.NoError(t, rows.Err())
	return out
}
