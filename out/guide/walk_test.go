package guide_test

import (
	"reflect"
)

// fields calls f for every string and every struct that can be reached from v, each
// once, with the names of its type and field, so that a test can fill or poison all
// of a catalogue, fields to come included.
func fields(v any, f func(owner reflect.Type, field string, v reflect.Value)) {
	seen := map[uintptr]bool{}
	var walk func(reflect.Type, string, reflect.Value)
	walk = func(owner reflect.Type, field string, v reflect.Value) {
		switch v.Kind() {
		case reflect.Pointer:
			if v.IsNil() || seen[v.Pointer()] || v.Type().Elem().PkgPath() == "math/big" {
				return
			}
			seen[v.Pointer()] = true
			walk(owner, field, v.Elem())
		case reflect.Slice, reflect.Array:
			for i := range v.Len() {
				walk(owner, field, v.Index(i))
			}
		case reflect.Struct:
			f(owner, field, v)
			for i := range v.NumField() {
				if t := v.Type().Field(i); t.IsExported() {
					walk(v.Type(), t.Name, v.Field(i))
				}
			}
		case reflect.String:
			f(owner, field, v)
		}
	}
	walk(nil, "", reflect.ValueOf(v))
}
