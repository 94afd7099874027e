package photo

import (
	"bytes"
	"encoding/binary"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"

	"github.com/disintegration/imaging"
)

// disintegration/imaging 1.6.2 panics on a TIFF whose pixels name colours that
// its palette does not have (CVE-2023-36308); golang.org/x/image, which decodes
// for it, refuses such files since 0.18.0 (GO-2024-2937). The library is used
// here for turning and blurring pictures that our own named decoders have read;
// these tests hold that no TIFF, whatever its name and whatever it is wrapped
// in, reaches a TIFF decoder.

// craftedTIFF is a picture of 4 × 4 pixels of 8 bits whose palette has two
// colours and whose pixels all name the last of 256 (TIFF 6.0, section 5).
func craftedTIFF(order binary.AppendByteOrder) []byte {
	mark := "II*\x00"
	if order == binary.AppendByteOrder(binary.BigEndian) {
		mark = "MM\x00*"
	}
	const entries = 9
	pixels := uint32(8 + 2 + 12*entries + 4)
	palette := pixels + 16
	b := order.AppendUint32([]byte(mark), 8)
	b = order.AppendUint16(b, entries)
	for _, e := range [entries][4]uint32{ // tag, type, count, value
		{256, 3, 1, 4}, {257, 3, 1, 4}, {258, 3, 1, 8}, {259, 3, 1, 1}, {262, 3, 1, 3},
		{273, 4, 1, pixels}, {278, 3, 1, 4}, {279, 4, 1, 16}, {320, 3, 6, palette},
	} {
		b = order.AppendUint16(order.AppendUint16(b, uint16(e[0])), uint16(e[1]))
		b = order.AppendUint32(b, e[2])
		if e[1] == 3 && e[2] == 1 { // a short stands at the front of its four bytes
			b = order.AppendUint16(order.AppendUint16(b, uint16(e[3])), 0)
		} else {
			b = order.AppendUint32(b, e[3])
		}
	}
	b = order.AppendUint32(b, 0)
	b = append(b, bytes.Repeat([]byte{0xff}, 16)...)
	return append(b, make([]byte, 12)...)
}

// The file is what it is meant to be: read by the library itself it panics, or
// is refused by its decoder where that has learnt to.
func TestCraftedTIFFIsCrafted(t *testing.T) {
	for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
		var err error
		panics := func() (panics bool) {
			defer func() { panics = recover() != nil }()
			img, e := imaging.Decode(bytes.NewReader(craftedTIFF(order)))
			if err = e; err == nil {
				imaging.Resize(img, 2, 2, imaging.Lanczos)
			}
			return false
		}()
		if !panics && err == nil {
			t.Errorf("%v: neither panics nor is refused: the test tests nothing", order)
		}
		t.Logf("%v: panics %v, %v", order, panics, err)
	}
}

func TestTIFFIsNeverDecoded(t *testing.T) {
	jpeg := asJPEG(t, bench(20, 10))
	for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
		tiff := craftedTIFF(order)
		for _, ending := range []string{".jpg", ".jpeg", ".JPG", ".png", ".webp", ".tif", ".tiff", ".TIF", ".gif", ".bmp", ".dng", ""} {
			mustRefuseFormat(t, "a"+ending, tiff)
		}
		exif := segment(0xe1, append([]byte("Exif\x00\x00"), tiff...))
		mustMake(t, after(jpeg, exif), DefaultRecipe())                  // as the EXIF of a JPEG: metadata, never a picture
		mustMake(t, append(bytes.Clone(jpeg), tiff...), DefaultRecipe()) // behind a JPEG: not looked at
		for name, data := range map[string][]byte{
			"a blank before it":  append([]byte(" "), tiff...),
			"PNG's mark before":  append([]byte("\x89PNG\r\n\x1a\n"), tiff...),
			"JPEG's mark before": append([]byte{0xff, 0xd8, 0xff}, tiff...),
			"in a RIFF":          append([]byte("RIFF\x00\x01\x00\x00WEBP"), tiff...),
		} {
			fsys := folder(map[string][]byte{"a.jpg": data})
			var p *Problem
			if _, err := MemoryCache().Make(t.Context(), fsys, "a.jpg", DefaultRecipe()); !errors.As(err, &p) {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
}

func mustRefuseFormat(t *testing.T, name string, data []byte) {
	t.Helper()
	fsys := folder(map[string][]byte{name: data})
	if out, _, err := Private(data, Keep{}); err == nil && !bytes.Equal(out, data) {
		t.Errorf("%s: a file of an unknown kind was altered", name)
	}
	for what, try := range map[string]func() error{
		"looked at": func() error { _, err := Inspect(fsys, name, Limits{}); return err },
		"made":      func() error { _, err := MemoryCache().Make(t.Context(), fsys, name, DefaultRecipe()); return err },
	} {
		var p *Problem
		if err := try(); !errors.As(err, &p) || p.Rule.Name != RuleFormat.Name {
			t.Errorf("%s, %s: %v, want a finding of %s", name, what, err, RuleFormat.Name)
		}
	}
}

// Decoders are named one by one: nothing of the program looks one up among
// those that a library has registered, which is the only way to a TIFF reader.
func TestNoDecoderIsLookedUp(t *testing.T) {
	looksUp := map[string]bool{"image.Decode": true, "image.DecodeConfig": true, "imaging.Open": true, "imaging.Decode": true,
		"tiff.Decode": true, "bmp.Decode": true}
	files := 0
	for _, top := range []string{"../../gen", "../../cmd", "../../themes"} {
		err := filepath.WalkDir(top, func(name string, e fs.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
				return err
			}
			files++
			set := token.NewFileSet()
			file, err := parser.ParseFile(set, name, nil, 0)
			if err != nil {
				return err
			}
			for _, imp := range file.Imports {
				if p := strings.Trim(imp.Path.Value, `"`); p == "golang.org/x/image/tiff" || p == "golang.org/x/image/bmp" {
					t.Errorf("%s imports %s", set.Position(imp.Pos()), p)
				}
			}
			ast.Inspect(file, func(n ast.Node) bool {
				if s, ok := n.(*ast.SelectorExpr); ok {
					if x, ok := s.X.(*ast.Ident); ok && looksUp[x.Name+"."+s.Sel.Name] {
						t.Errorf("%s calls %s.%s", set.Position(s.Pos()), x.Name, s.Sel.Name)
					}
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if files < 100 {
		t.Errorf("only %d files were looked at", files)
	}
}
