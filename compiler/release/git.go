package release

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path"
	"path/filepath"
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
	g := &git{ctx, program, name, rev}
	if _, err := g.run("rev-parse", "--verify", "--quiet", rev+"^{tree}"); err != nil {
		if _, err := g.run("rev-parse", "--git-dir"); err != nil {
			return nil, err
		}
		return nil, fmt.Errorf("%s cannot be read: git knows no revision %q here", name, rev)
	}
	return g, nil
}

// run gives what git prints. The error tells what it complains about.
func (g *git) run(args ...string) ([]byte, error) {
	cmd := exec.CommandContext(g.ctx, g.program, args...)
	cmd.Env = append(os.Environ(), "LC_ALL=C", "GIT_OPTIONAL_LOCKS=0", "GIT_TERMINAL_PROMPT=0")
	var stdout, stderr bytes.Buffer
	cmd.Stdout, cmd.Stderr = &stdout, &stderr
	if err := cmd.Run(); err != nil {
		if g.ctx.Err() != nil {
			return nil, g.ctx.Err()
		}
		why, _, _ := strings.Cut(strings.TrimSpace(stderr.String()), "\n")
		if why = strings.TrimPrefix(why, "fatal: "); why == "" {
			why = err.Error()
		}
		return nil, fmt.Errorf("%s cannot be read: git says: %s", g.name, why)
	}
	return stdout.Bytes(), nil
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
		if err := g.write(e, folder, dir); err != nil {
			return "", err
		}
	}
	if books == 0 {
		return "", fmt.Errorf("%w with a name that ends in .xlsx or .xlsm in %s", intake.ErrNoWorkbook, g.name)
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
type entry struct{ mode, name string }

// list gives what is in a folder, without what is below that.
func (g *git) list(folder string) ([]entry, error) {
	text, err := g.run("ls-tree", "-z", "--full-tree", g.object(folder))
	if err != nil {
		return nil, err
	}
	var out []entry
	for line := range strings.SplitSeq(strings.TrimSuffix(string(text), "\x00"), "\x00") {
		head, name, ok := strings.Cut(line, "\t")
		if mode, _, _ := strings.Cut(head, " "); ok {
			out = append(out, entry{mode, name})
		}
	}
	return out, nil
}

// write writes one file as git would check it out.
func (g *git) write(e entry, folder, dir string) error {
	if !strings.HasPrefix(e.mode, "100") {
		if e.mode == "040000" {
			return nil
		}
		return fmt.Errorf("%s holds %s as a link, which leads nowhere in a revision", g.name, e.name)
	}
	if !filepath.IsLocal(e.name) || filepath.Base(e.name) != e.name {
		return fmt.Errorf("%s holds a file called %q, which cannot be written here", g.name, e.name)
	}
	at := e.name
	if folder != "" {
		at = folder + "/" + e.name
	}
	text, err := g.run("cat-file", "--filters", g.object(at))
	if err != nil {
		return err
	}
	f, err := os.OpenFile(filepath.Join(dir, e.name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return fmt.Errorf("%s holds %s twice, in other case", g.name, e.name)
	}
	_, err = f.Write(text)
	return errors.Join(err, f.Close())
}
