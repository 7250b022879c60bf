package picture

import (
	"bytes"
	"path"
)

// Alone looks at a picture that no workbook names, by the rules of those that one does, and
// gives the bytes that may be published, of the widest file, and the ending of its name. An
// error is the end of a sentence.
func Alone(folder, name string) (data []byte, ending string, err error) {
	from := source{folder, name}
	read, err := from.read()
	if err != nil {
		return nil, "", err
	}
	p, err := look(from, read, newRoom())
	if err != nil {
		return nil, "", err
	}
	err = p.Write(func(f File, d []byte) error {
		data, ending = bytes.Clone(d), path.Ext(f.Name)
		return nil
	})
	return data, ending, err
}
