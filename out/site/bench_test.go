package site

import (
	"context"
	"fmt"
	"io/fs"
	"math/big"
	"os"
	"path/filepath"
	"runtime"
	"runtime/metrics"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/tidy/yardstick"
)

// firm is a catalogue of a number of platforms with ten times as many parts, each with
// another number; 15 positions of a platform have 8 cases each, of two parts to choose
// from.
func firm(platforms int) *compiler.Result {
	cat := &model.Catalogue{Settings: model.Settings{Title: "A firm's guides", BaseURL: "https://guides.example"}}
	for i := range 8 {
		t := &model.Trait{Index: i, Name: fmt.Sprintf("Trait %d", i), Effort: 1, Question: "What is it?"}
		for v := range 4 {
			t.Values = append(t.Values, &model.Value{Name: fmt.Sprintf("Value %d", v), Tell: []model.Tell{{Text: "Look at it from the side."}}})
		}
		cat.Traits = append(cat.Traits, t)
	}
	for i := range 15 {
		p := &model.Position{Index: i, Name: fmt.Sprintf("Position %d", i), Axle: "front"}
		p.Rows = []*model.PositionRow{{Position: p, Quantity: 1}}
		cat.Positions = append(cat.Positions, p)
	}
	for i := range 10 * platforms {
		p := &model.Part{Number: fmt.Sprintf("LX-%05d", i), Name: "Damper, long travel", Family: fmt.Sprintf("Family %d", i%40), Known: true, Listed: true,
			Properties: []model.Property{{Name: "Stroke", Unit: "mm", Text: fmt.Sprint(100 + i%90), Public: true}}}
		cat.Parts = append(cat.Parts, p)
		cat.References = append(cat.References, &model.Reference{Number: fmt.Sprintf("9%d-%d", i, i%97), Part: p, Source: "Tarn Chassis", Kind: "original"})
	}
	r := &compiler.Result{Whole: true, Catalogue: cat}
	for i := range platforms {
		p := &model.Platform{Index: i, Name: fmt.Sprintf("Heron %d", i), Maker: fmt.Sprintf("Maker %d", i%20)}
		for y := 2000; y < 2016; y++ {
			p.Years = append(p.Years, y)
		}
		cat.Platforms = append(cat.Platforms, p)
		r.Guides = append(r.Guides, decide.Pack(firmGuide(cat, p)))
	}
	return r
}

func firmGuide(cat *model.Catalogue, p *model.Platform) *decide.Guide {
	g := &decide.Guide{Platform: p, Configurations: big.NewInt(1), OnTheRoad: new(big.Rat)}
	for _, t := range cat.Traits {
		g.Traits = append(g.Traits, t.Is(0, 1, 2, 3))
	}
	for j, pos := range cat.Positions {
		a := &decide.Answer{Position: pos, Exact: true, Configurations: big.NewInt(8)}
		for k := range 8 {
			at := (p.Index*31 + j*7 + k) * 13 % len(cat.Parts)
			years := model.Span{From: 2000, To: 2007}
			if k > 3 {
				years = model.Span{From: 2008, To: 2015}
			}
			a.Cases = append(a.Cases, decide.Case{Configurations: big.NewInt(1), Outcome: model.Fitted, Quantity: 1,
				Where: model.Box{Years: []model.Span{years}, Traits: []model.TraitSet{cat.Traits[(p.Index+j)%8].Is(k % 4)}},
				Alternatives: []model.Alternative{
					{{Part: cat.Parts[at], Quantity: 1}}, {{Part: cat.Parts[(at+1)%len(cat.Parts)], Quantity: 1}}}})
		}
		g.Answers = append(g.Answers, a)
	}
	return g
}

// BenchmarkPublish publishes catalogues of three sizes. `x-bare` is how many times longer
// that takes than writing the same bytes into files of the same names, in the same run,
// and `x-bare-cpu` how many times the processor time; `cpu-ms/page` is processor time a
// page with all that is written beside it. `live-MB` is the most memory in use beyond the
// catalogue and its guides, garbage of the collection included.
func BenchmarkPublish(b *testing.B) {
	for _, platforms := range []int{20, 200, 2000} {
		b.Run(fmt.Sprintf("platforms=%d", platforms), func(b *testing.B) {
			r := firm(platforms)
			var counts Counts
			var bare, bareCPU, cpu time.Duration
			var most uint64
			for b.Loop() {
				dir := filepath.Join(b.TempDir(), "site")
				live := watchLive()
				before := yardstick.ProcessorTime()
				var err error
				counts, err = Publish(context.Background(), dir, nil, r, Options{})
				require.NoError(b, err)
				b.StopTimer()
				cpu += yardstick.ProcessorTime() - before
				most = max(most, live())
				took, tookCPU := rewrite(b, dir)
				bare, bareCPU = bare+took, bareCPU+tookCPU
				require.NoError(b, os.RemoveAll(dir))
				b.StartTimer()
			}
			b.ReportMetric(float64(11*platforms*b.N)/b.Elapsed().Seconds(), "pages/s")
			b.ReportMetric(b.Elapsed().Seconds()/bare.Seconds(), "x-bare")
			b.ReportMetric(cpu.Seconds()/bareCPU.Seconds(), "x-bare-cpu")
			b.ReportMetric(1000*cpu.Seconds()/float64(11*platforms*b.N), "cpu-ms/page")
			b.ReportMetric(float64(most)/1e6, "live-MB")
			b.ReportMetric(float64(counts.Bytes)/1e6, "MB")
		})
	}
}

// watchLive collects what is not in use, and then watches how much more is in use at each
// collection, until the function that it gives is called.
func watchLive() func() uint64 {
	runtime.GC()
	sample := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	metrics.Read(sample)
	before, most := sample[0].Value.Uint64(), uint64(0)
	stop, done := make(chan bool), make(chan bool)
	go func() {
		for {
			metrics.Read(sample)
			most = max(most, sample[0].Value.Uint64())
			select {
			case <-stop:
				close(done)
				return
			case <-time.After(5 * time.Millisecond):
			}
		}
	}()
	return func() uint64 {
		close(stop)
		<-done
		return max(most, before) - before
	}
}

// rewrite writes every file of a folder into another one and says how long that took, and
// what processor time.
func rewrite(b *testing.B, dir string) (took, cpu time.Duration) {
	to := b.TempDir()
	require.NoError(b, filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		text, err := os.ReadFile(path)
		require.NoError(b, err)
		name, err := filepath.Rel(dir, path)
		require.NoError(b, err)
		start, before := time.Now(), yardstick.ProcessorTime()
		target := filepath.Join(to, name)
		require.NoError(b, os.MkdirAll(filepath.Dir(target), 0o755))
		require.NoError(b, os.WriteFile(target, text, 0o644))
		took, cpu = took+time.Since(start), cpu+yardstick.ProcessorTime()-before
		return nil
	}))
	require.NoError(b, os.RemoveAll(to))
	return took, cpu
}
