package visible_test

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/visible"
)

func TestHidden(t *testing.T) {
	for _, r := range "\x00\t\n\r\x1b\x7f\u0080\u0085\u009f\u00ad\u034f\u061c\u115f\u180e\u200b\u200d\u200e\u2028\u2029\u202e\u2060\u2066\u3164\ufe0f\ufeff\ufff9\U000e0001\U000e0100" {
		assert.True(t, visible.Hidden(r), "%U", r)
	}
	for _, r := range " ~\u00a0\u00acé\u0301\u2003課\ufffd\ue000🚚" {
		assert.False(t, visible.Hidden(r), "%U", r)
	}
}

func TestText(t *testing.T) {
	assert.Equal(t, "Größe 課題 \ufffd", visible.Text("Größe 課題 \ufffd"))
	assert.Equal(t, "a<U+001B>[2J<U+202E>b<U+000A><U+FFFD>\ufffd<U+E0001>", visible.Text("a\x1b[2J\u202eb\n\xff\ufffd\U000e0001"))
	assert.True(t, visible.Any("\xff"))
	assert.False(t, visible.Any("\ufffd"))
}

// through writes texts one after another.
func through(t *testing.T, f visible.Form, texts ...string) string {
	t.Helper()
	var out bytes.Buffer
	w := visible.NewWriter(&out).Set(f)
	for _, text := range texts {
		n, err := w.Write([]byte(text))
		require.NoError(t, err)
		require.Equal(t, len(text), n)
	}
	require.NoError(t, w.Flush())
	return out.String()
}

func TestWriter(t *testing.T) {
	for _, c := range []struct {
		form      visible.Form
		say, want string
	}{
		{visible.Plain, "a\tb\n\x1b[31mé\u202e\x9b\n", "a\tb\n<U+001B>[31mé<U+202E><U+FFFD>\n"},
		{visible.Plain, "a\u2028\r\U000e0001", "a<U+2028><U+000D><U+E0001>"},
		{visible.JSON, "\u202e\x7f\U000e0001", `\u202e\u007f\udb40\udc01`},
		{visible.XML, "a\u202e\U000e0001", "a&#x202E;&#xE0001;"},
		{visible.Colours, "\x1b[1;31mred\x1b[0m\x1b[2J\x1b[1;31;4m\x1b]8", "\x1b[1;31mred\x1b[0m<U+001B>[2J<U+001B>[1;31;4m<U+001B>]8"},
		{visible.Colours, "\x1b[", "<U+001B>["},
		{visible.Plain, "\u00a0::x\n\u3000::\xe2\x82", "\u00a0:<U+003A>x\n\u3000:<U+003A><U+FFFD><U+FFFD>"},
		{visible.Plain, "::error::x\n \t::x\na ::x\n:\n:x:", ":<U+003A>error::x\n \t:<U+003A>x\na ::x\n:\n:x:"},
		{visible.Commands, "::error::x\n ::x", "::error::x\n :<U+003A>x"},
		{visible.Plain, "##[x]##vso[a]###[x]# #[##-[ ## head\n", "##<U+005B>x]##vso<U+005B>a]###<U+005B>x]# #[##-[ ## head\n"},
		{visible.JSON, `{"a":"##[x"}` + "\n::", `{"a":"##\u005bx"}` + "\n:\\u003a"},
	} {
		assert.Equal(t, c.want, through(t, c.form, c.say), "%q", c.say)
		assert.Equal(t, c.want, through(t, c.form, strings.Split(c.say, "")...), "sign by sign: %q", c.say)
		var bytewise []string
		for i := range len(c.say) {
			bytewise = append(bytewise, c.say[i:i+1])
		}
		assert.Equal(t, c.want, through(t, c.form, bytewise...), "byte by byte: %q", c.say)
	}
}

func TestWriterCounts(t *testing.T) {
	w := visible.NewWriter(&bytes.Buffer{})
	fmt.Fprint(w, "a\x1bb\u200b")
	assert.Equal(t, 2, w.Escaped())
}

func TestWriterTellsErrors(t *testing.T) {
	n, err := visible.NewWriter(iotest.TruncateWriter(failing{}, 9)).Write([]byte("a"))
	assert.Zero(t, n)
	assert.ErrorContains(t, err, "full")
}

type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, fmt.Errorf("full") }

// What is escaped as JSON or XML says the same as before, and nothing hidden is in it.
func FuzzWriter(f *testing.F) {
	for _, s := range []string{"a\x1b[31m", "\u202e##vso[x]::", "\n::x", "\xff\U000e0001", "\x1b[1m"} {
		f.Add(s, 1)
	}
	f.Fuzz(func(t *testing.T, s string, cut int) {
		text, err := json.Marshal(s)
		require.NoError(t, err)
		at := min(max(cut, 0), len(text))
		out := through(t, visible.JSON, string(text[:at]), string(text[at:]))
		var want, got string
		require.NoError(t, json.Unmarshal(text, &want))
		require.NoError(t, json.Unmarshal([]byte(out), &got))
		assert.Equal(t, want, got)
		assert.False(t, visible.Any(out), "%q", out)

		var doc bytes.Buffer
		require.NoError(t, xml.EscapeText(&doc, []byte(s)))
		var before, after string
		require.NoError(t, xml.Unmarshal([]byte("<a>"+doc.String()+"</a>"), &before))
		require.NoError(t, xml.Unmarshal([]byte("<a>"+through(t, visible.XML, doc.String())+"</a>"), &after))
		assert.Equal(t, before, after)

		for line := range strings.SplitSeq(through(t, visible.Plain, s), "\n") {
			assert.False(t, visible.Any(strings.ReplaceAll(line, "\t", " ")), "%q", line)
			assert.False(t, strings.HasPrefix(strings.TrimSpace(line), "::"), "%q", line)
			assert.NotContains(t, line, "##[")
		}
	})
}
