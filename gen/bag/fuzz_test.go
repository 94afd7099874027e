package bag

import (
	"archive/zip"
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"spruelight/gen/source"
)

// FuzzManifest: every path that gets through is safe and plain, and a manifest
// printed again reads the same.
func FuzzManifest(f *testing.F) {
	sum := strings.Repeat("ab", 16)
	for _, line := range []string{sum + "  data/a.txt\n", sum + " *data/a\r\n", sum + "\tdata/100%25\r", sum + "  data/../../x",
		sum + "  data/%0a%0D", "\n\n", "x", sum + "  C:\\x\n", sum + "  data/a\n" + sum + "  data/a\n"} {
		f.Add(line, true)
		f.Add(line, false)
	}
	f.Fuzz(func(t *testing.T, text string, strict bool) {
		entries, faults := parseManifest("manifest-md5.txt", text, 32, strict)
		lines := 0
		for range eachLine(text) {
			lines++
		}
		faults = slices.DeleteFunc(faults, func(f Fault) bool { return f.Kind == Advice })
		if len(faults) <= maxFaulty && len(entries)+len(faults) != lines {
			t.Errorf("%d lines gave %d entries and %d faults", lines, len(entries), len(faults))
		}
		for _, e := range entries {
			if leadsOut(e.path) != "" || len(e.sum) != 32 {
				t.Errorf("%+v got through", e)
			}
		}
		again, faults := parseManifest("manifest-md5.txt", string(formatManifest(entries)), 32, true)
		if len(faults) > 0 || len(again) != len(entries) {
			t.Fatalf("printed again: %v", faults)
		}
		for i := range again {
			if again[i].path != entries[i].path || again[i].sum != entries[i].sum {
				t.Errorf("%+v became %+v", entries[i], again[i])
			}
		}
	})
}

// FuzzInfo: what formatInfo accepts reads back, and reading never fails.
func FuzzInfo(f *testing.F) {
	f.Add("Label: value\n  more\nOther:\tx\r\n", true)
	f.Add("Label  :   value\r", false)
	f.Add(" x\n:\n\n", true)
	f.Fuzz(func(t *testing.T, text string, strict bool) {
		tags, _ := parseInfo(text, strict)
		checkInfo(tags, 1, 1)
		printed, err := formatInfo(tags)
		if err != nil {
			return // values that are empty or have control characters
		}
		again, faults := parseInfo(string(printed), true)
		if len(faults) > 0 || len(again) != len(tags) {
			t.Fatalf("%q printed as %q: %v", text, printed, faults)
		}
		for i := range tags {
			lines, err := valueLines(tags[i].Value)
			if err != nil || again[i].Label != tags[i].Label || again[i].Value != strings.Join(lines, "\n") {
				t.Errorf("%+v became %+v", tags[i], again[i])
			}
		}
	})
}

// FuzzDecode: any bytes in any encoding give text or an error.
func FuzzDecode(f *testing.F) {
	for _, encoding := range []string{"UTF-8", "UTF-16", "UTF-16LE", "US-ASCII", "ISO-8859-1", "x"} {
		f.Add([]byte(declared), encoding)
		f.Add([]byte("\xff\xfea\x00"), encoding)
		f.Add([]byte("\xfe\xff\xd8\x00"), encoding)
	}
	f.Fuzz(func(t *testing.T, data []byte, encoding string) {
		text, err := decode(data, encoding)
		if err != nil && text != "" {
			t.Errorf("%q with %v", text, err)
		}
		if !strings.Contains(text, "\ufffd") && strings.ToValidUTF8(text, "\ufffd") != text {
			t.Errorf("%q is not UTF-8", text)
		}
		parseDeclaration(data)
	})
}

func FuzzFetch(f *testing.F) {
	f.Add("https://bench.example/a 6 data/a\n", true)
	f.Add("a\t-\tdata/../a\r\nx: - data/%25", false)
	f.Fuzz(func(t *testing.T, text string, strict bool) {
		files, _ := parseFetch(text, strict)
		for _, w := range files {
			if leadsOut(w.path) != "" || !strings.HasPrefix(w.path, dataFolder) || w.length < -1 {
				t.Errorf("%+v got through", w)
			}
		}
	})
}

// FuzzBag: a bag of any files, given as names and contents with NULs between,
// gets the same report each time.
func FuzzBag(f *testing.F) {
	sum := algorithms["md5"]()
	sum.Write([]byte("alpha"))
	line := fmt.Sprintf("%x  data/a\n", sum.Sum(nil))
	for _, parts := range [][]string{
		{"bagit.txt", declared, "data/a", "alpha", "manifest-md5.txt", line},
		{"bagit.txt", strings.Replace(declared, "1.0", "0.97", 1), "data/a", "alpha", "manifest-md5.txt", line, "tagmanifest-md5.txt", line, "bag-info.txt", "Payload-Oxum: 5.1\n"},
		{"bagit.txt", strings.Replace(declared, "UTF-8", "UTF-16", 1), "data/a", "", "manifest-sha1.txt", "\xfe\xff\x00a", "fetch.txt", "http://x 1 data/b"},
	} {
		f.Add(strings.Join(parts, "\x00"))
	}
	f.Fuzz(func(t *testing.T, text string) {
		parts := strings.Split(text, "\x00")
		var entries []*zip.FileHeader
		for i := 0; i+1 < len(parts); i += 2 {
			if len(parts[i]) > 1<<16-1 || len(parts[i+1]) > 1<<16-1 {
				return // lengths that a zip's header, or its comment here, cannot hold
			}
			entries = append(entries, file(parts[i], parts[i+1]))
		}
		data := zipOf(t, entries...)
		var reports []string
		for range 2 {
			c, err := examine(ctx, readZip(bytes.NewReader(data), int64(len(data))))
			if err != nil {
				t.Fatal(err)
			}
			if c.rep.Valid != (len(c.rep.Faults) == 0) || c.rep.Valid && !c.rep.Complete {
				t.Errorf("%+v", c.rep)
			}
			reports = append(reports, fmt.Sprintf("%+v", c.rep))
		}
		if reports[0] != reports[1] {
			t.Errorf("two reports:\n%s\n%s", reports[0], reports[1])
		}
	})
}

// FuzzZip: any bytes give a report; a valid bag holds only safe paths, and the
// verdicts agree with the faults.
func FuzzZip(f *testing.F) {
	f.Add(zipOf(f, basic(f)...))
	f.Add(zipOf(f, strip(basic(f))...))
	f.Add(zipOf(f, append(basic(f), link("bag/data/link", "/etc/passwd"), file("bag/../x", "x"),
		file("bag/bag-info.txt", "Payload-Oxum: 5.1\n"))...))
	f.Add(overlapping(zipOf(f, basic(f)...)))
	f.Fuzz(func(t *testing.T, data []byte) {
		s := readZip(bytes.NewReader(data), int64(len(data)))
		c, err := examine(ctx, s)
		if err != nil {
			t.Fatal(err)
		}
		for p := range s.files {
			if leadsOut(p) != "" {
				t.Errorf("%q got through", p)
			}
		}
		if c.rep.Valid != (len(c.rep.Faults) == 0) || c.rep.Valid && !c.rep.Complete {
			t.Errorf("%+v", c.rep)
		}
		if c.rep.Valid {
			var paths source.Paths
			for _, cp := range c.copies(nil) {
				if err := paths.Add(cp.to); err != nil {
					t.Errorf("would be restored: %v", err)
				}
			}
		}
	})
}
