package compiler_test

import (
	"os"
	"testing"

	"ferrule/compiler/tidy/share"
)

func TestMain(m *testing.M) {
	share.Roomy()
	os.Exit(m.Run())
}
