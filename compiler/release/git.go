package release

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"strconv"
	"strings"

	"ferrule/compiler"
	"ferrule/compiler/intake"
)

// revision reads REV:PATH, a folder or a workbook as git has it. Its files are written
// to a folder of their own, which is taken away afterwards.
func revision(ctx context.Context, name string, o compiler.Options) (_ *Release, err error) {
	rev, at, _ := strings.Cut(name, ":")
	g, err := newGit(ctx, name, rev)
	if err != nil {
		return nil, err
	}
	dir, err := os.MkdirTemp("", "ferrule-revision-*")
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	source, err := g.export(strings.TrimRight(at, "/"), dir)
	if err != nil {
		return nil, err
	}
	out, err := compiled(ctx, name, source, o)
	if err != nil {
		return nil, err
	}
	out.State.Kind = "revision"
	return out, nil
}

// git asks the program git about one revision.
type git struct {
	ctx     context.Context
	program string
	name    string // as the user wrote it
	rev     string
	written int64 // bytes of files so far
}

// newGit refuses what git would take for an option, and what is no revision.
func newGit(ctx context.Context, name, rev string) (*git, error) {
	switch {
	case rev == "":
		return nil, fmt.Errorf("%q names no revision; write for example main:catalogue", name)
	case strings.HasPrefix(rev, "-"):
		return nil, fmt.Errorf("%q is no revision: none begins with a dash", rev)
	}
	program, err := exec.LookPath("git")
	if err != nil {
		return nil, fmt.Errorf("%s cannot be read: the program git is not installed", name)
	}
	g := &git{ctx: ctx, program: program, name: name, rev: rev}
	if _, err := g.run("rev-parse", "--verify", "--quiet", rev+"^{tree}"); err != nil {
		if _, err := g.run("rev-parse", "--git-dir"); err != nil {
			return nil, err
		}
		return nil, fmt.Errorf("%s cannot be read: git knows no revision %q here", name, rev)
	}
	return g, nil
}

// maxTalk bounds in bytes what git may say at once: a folder of a hundred thousand names
// takes a few million.
const maxTalk = 64 << 20

// run gives what git prints. The error tells what it complains about.
func (g *git) run(args ...string) ([]byte, error) {
	out := bounded{most: maxTalk}
	if err := g.stream(&out, args...); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// stream writes what git prints as it comes.
func (g *git) stream(w io.Writer, args ...string) error {
	cmd := exec.CommandContext(g.ctx, g.program, args...)
	cmd.Env = append(os.Environ(), "LC_ALL=C", "GIT_OPTIONAL_LOCKS=0", "GIT_TERMINAL_PROMPT=0")
	stderr := bounded{most: maxTalk}
	cmd.Stdout, cmd.Stderr = w, &stderr
	err := cmd.Run()
	switch {
	case err == nil:
		return nil
	case g.ctx.Err() != nil:
		return g.ctx.Err()
	case errors.Is(err, errTalk):
		return fmt.Errorf("%s cannot be read: git lists more than %d MB", g.name, maxTalk>>20)
	}
	why, _, _ := strings.Cut(strings.TrimSpace(stderr.String()), "\n")
	if why = strings.TrimPrefix(why, "fatal: "); why == "" {
		why = err.Error()
	}
	return fmt.Errorf("%s cannot be read: git says: %s", g.name, why)
}

var errTalk = errors.New("too much")

// bounded keeps so many bytes and refuses more.
type bounded struct {
	bytes.Buffer
	most int
}

func (b *bounded) Write(p []byte) (int, error) {
	if b.Len()+len(p) > b.most {
		return 0, errTalk
	}
	return b.Buffer.Write(p)
}

// object is how git names what is at a path of the revision.
func (g *git) object(at string) string { return g.rev + ":" + at }

// export writes the files of a catalogue below dir and gives what to compile: dir, or
// the one workbook that the path names.
func (g *git) export(at, dir string) (source string, err error) {
	kind, err := g.run("cat-file", "-t", g.object(at))
	if err != nil {
		return "", err
	}
	folder, only := at, ""
	switch strings.TrimSpace(string(kind)) {
	case "tree":
	case "blob":
		folder, only = parent(at), path.Base(at)
	default:
		return "", fmt.Errorf("%s is neither a folder nor a file", g.name)
	}
	entries, err := g.list(folder)
	if err != nil {
		return "", err
	}
	books := 0
	for _, e := range entries {
		role := intake.RoleOf(e.name)
		if e.name != only && (role == intake.Ignored || only != "" && role != intake.Schema) {
			continue
		}
		if e.name == only || role == intake.Workbook {
			books++
		}
		if err := g.write(e, dir); err != nil {
			return "", err
		}
	}
	if books == 0 {
		return "", fmt.Errorf("%w with a name that ends in %s in %s", intake.ErrNoWorkbook, intake.Endings, g.name)
	}
	return filepath.Join(dir, only), nil
}

// parent gives the folder of a path, as git writes it after the colon; "" is the top,
// and `./x` stays beside the folder that the user is in.
func parent(at string) string {
	i := strings.LastIndexByte(at, '/')
	if i < 0 {
		return ""
	}
	return at[:i]
}

// entry is one name in a folder.
type entry struct {
	mode, id, name string
	size           int64
}

// list gives what is in a folder, without what is below that.
func (g *git) list(folder string) ([]entry, error) {
	text, err := g.run("ls-tree", "-z", "-l", "--full-tree", g.object(folder))
	if err != nil {
		return nil, err
	}
	var out []entry
	for line := range strings.SplitSeq(strings.TrimSuffix(string(text), "\x00"), "\x00") {
		head, name, _ := strings.Cut(line, "\t")
		if f := strings.Fields(head); len(f) == 4 { // mode, type, id, size; - for a folder
			size, _ := strconv.ParseInt(f[3], 10, 64)
			out = append(out, entry{f[0], f[2], name, size})
		}
	}
	return out, nil
}

// write writes one file as git keeps it: no filter that a repository may name is run. What
// Git LFS keeps elsewhere is taken from where it is.
func (g *git) write(e entry, dir string) error {
	if !strings.HasPrefix(e.mode, "100") {
		if e.mode == "040000" {
			return nil
		}
		return fmt.Errorf("%s holds %s as a link, which leads nowhere in a revision", g.name, e.name)
	}
	if !filepath.IsLocal(e.name) || filepath.Base(e.name) != e.name {
		return fmt.Errorf("%s holds a file called %q, which cannot be written here", g.name, e.name)
	}
	if err := g.fits(e.name, e.size); err != nil {
		return err
	}
	f, err := os.OpenFile(filepath.Join(dir, e.name), os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return fmt.Errorf("%s holds %s twice, in other case", g.name, e.name)
	}
	err = g.stream(f, "cat-file", "blob", e.id)
	if err == nil && e.size <= longestPointer {
		err = g.follow(f, e.name)
	}
	return errors.Join(err, f.Close())
}

// Bounds in bytes of a workbook in a revision, and of all that is written for one. On disk a
// workbook is read where it is; what git has must be written first.
const (
	maxBook   = 1 << 30
	maxExport = 4 << 30
)

// fits measures a file before it is read.
func (g *git) fits(name string, size int64) error {
	most := int64(maxBook)
	if intake.RoleOf(name) == intake.Schema {
		most = intake.MaxSchema
	}
	if size > most {
		return fmt.Errorf("%s cannot be read: %s is larger than %d MB", g.name, name, most>>20)
	}
	if g.written += size; g.written > maxExport {
		return fmt.Errorf("%s cannot be read: its files are larger than %d MB together", g.name, maxExport>>20)
	}
	return nil
}
