package decide_test

import (
	"math/big"
	"reflect"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// filler gives every field of a value something of its own, and lists two elements.
type filler struct{ next int }

func (f *filler) number() int {
	f.next++
	return f.next
}

func (f *filler) fill(v reflect.Value, deep int) {
	switch v.Interface().(type) {
	case *big.Int:
		v.Set(reflect.ValueOf(big.NewInt(int64(f.number()) << 40)))
		return
	case *big.Rat:
		v.Set(reflect.ValueOf(big.NewRat(int64(f.number()), 4093)))
		return
	case *decide.Tree:
		if deep > 12 {
			return // a branch that leads nowhere
		}
	}
	switch v.Kind() {
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		if v.Type().Elem().PkgPath() == reflect.TypeFor[decide.Guide]().PkgPath() {
			f.fill(v.Elem(), deep+1)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			f.fill(v.Field(i), deep+1)
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		fallthrough
	case reflect.Array:
		for i := range v.Len() {
			f.fill(v.Index(i), deep+1)
		}
	case reflect.Bool:
		v.SetBool(f.number()%2 == 0)
	case reflect.String:
		v.SetString("text " + strconv.Itoa(f.number()))
	case reflect.Uint8:
		v.SetUint(uint64(f.number() % 100))
	case reflect.Uint64:
		v.SetUint(uint64(f.number()) << 50)
	default:
		v.SetInt(int64(f.number()))
	}
}

// TestEveryFieldIsPacked holds that a guide of which every field says something comes back as it
// was, so that a field more cannot be forgotten.
func TestEveryFieldIsPacked(t *testing.T) {
	var g decide.Guide
	new(filler).fill(reflect.ValueOf(&g).Elem(), 0)
	require.NotNil(t, g.Answers[1].Questions.Tree.Branches[1].Next, "the guide is filled")
	p := decide.Pack(&g)
	require.Equal(t, &g, p.Open())
	require.Equal(t, &g, p.Open(), "opened again")
	for i := range g.Answers {
		g.Answers[i].Cases, g.Answers[i].Questions = nil, decide.Questions{}
	}
	assert.Equal(t, &g, p.Outline())
}

// TestWhatIsNotThereIsPacked holds that nothing and an empty list stay what they are: a box without
// years is about all of them.
func TestWhatIsNotThereIsPacked(t *testing.T) {
	g := &decide.Guide{Platform: &model.Platform{}, Vehicles: []model.Box{{Years: []model.Span{}}, {Traits: []model.TraitSet{{}}}},
		Answers: []*decide.Answer{{}, {Cases: []decide.Case{{Configurations: new(big.Int)}, {}}, Unsettled: []model.Box{}}}}
	assert.Equal(t, g, decide.Pack(g).Open())
}

// TestPackedSharesWhatIsTheSame holds that positions which split alike take little more than one.
func TestPackedSharesWhatIsTheSame(t *testing.T) {
	var one decide.Guide
	new(filler).fill(reflect.ValueOf(&one).Elem(), 0)
	many := one
	for range 20 {
		many.Answers = append(many.Answers, one.Answers[0])
	}
	assert.Less(t, decide.Pack(&many).Size(), 2*decide.Pack(&one).Size())
}
