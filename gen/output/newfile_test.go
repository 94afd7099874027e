package output

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestNewFileNeverReplaces(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "2026-02-14.md")
	if err := NewFile(context.Background(), name, []byte("sitting")); err != nil {
		t.Fatal(err)
	}
	err := NewFile(context.Background(), name, []byte("another"))
	if !errors.Is(err, fs.ErrExist) || !strings.Contains(err.Error(), "exists already and is left as it is") {
		t.Errorf("got %v", err)
	}
	mustHold(t, dir, tree{"2026-02-14.md": "sitting"})

	taken := filepath.Join(dir, "taken")
	if err := os.Symlink(filepath.Join(dir, "nowhere"), taken); err != nil {
		t.Skip("no symbolic links here: ", err)
	}
	if err := NewFile(context.Background(), taken, nil); !errors.Is(err, fs.ErrExist) {
		t.Errorf("written through a dangling link: %v", err)
	}
}

// The name is taken by another while the file is being filled.
func TestNewFileThatIsOvertaken(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "bag.zip")
	err := NewFileFrom(context.Background(), name, func(w io.Writer) error {
		put(t, dir, tree{"bag.zip": "first"})
		_, err := io.WriteString(w, "second")
		return err
	})
	if !errors.Is(err, fs.ErrExist) {
		t.Errorf("got %v", err)
	}
	mustHold(t, dir, tree{"bag.zip": "first"})
}

func TestNewFileThatFails(t *testing.T) {
	dir := t.TempDir()
	broken := errors.New("broken")
	err := NewFileFrom(context.Background(), filepath.Join(dir, "bag.zip"), func(w io.Writer) error {
		fmt.Fprint(w, "half")
		return broken
	})
	if !errors.Is(err, broken) {
		t.Errorf("got %v", err)
	}
	mustHold(t, dir, tree{})
}

func TestWriteFileReplaces(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "diagram.svg")
	for _, text := range []string{"one", "two"} {
		if err := WriteFile(context.Background(), name, []byte(text)); err != nil {
			t.Fatal(err)
		}
		mustHold(t, dir, tree{"diagram.svg": text})
		if err := os.Chmod(name, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if info, err := os.Stat(name); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("permissions became %v, %v", info.Mode(), err)
	}
	err := WriteFile(context.Background(), filepath.Join(dir, "missing", "x"), nil)
	if err == nil || !strings.Contains(err.Error(), "cannot prepare x in this folder") {
		t.Errorf("got %v", err)
	}
	link := filepath.Join(dir, "link")
	if os.Symlink("diagram.svg", link) != nil {
		return
	}
	if err := WriteFile(context.Background(), link, []byte("three")); err != nil {
		t.Fatal(err)
	}
	mustHold(t, dir, tree{"diagram.svg": "three", "link": "-> diagram.svg"})
}

func TestFolder(t *testing.T) {
	dir := t.TempDir()
	final := filepath.Join(dir, "bags", "marram")
	ctx := context.Background()
	fill := func(stage string) error {
		if _, err := os.Lstat(final); !os.IsNotExist(err) {
			t.Errorf("the final name is there before its time: %v", err)
		}
		put(t, stage, tree{"bagit.txt": "x", "data/a": "y"})
		return nil
	}
	if err := Folder(ctx, final, fill); err != nil {
		t.Fatal(err)
	}
	mustHold(t, dir, tree{"bags/marram/bagit.txt": "x", "bags/marram/data/a": "y"})
	mustBeAlone(t, final)

	never := func(string) error { t.Error("filled though the name is taken"); return nil }
	if err := Folder(ctx, final, never); !errors.Is(err, fs.ErrExist) {
		t.Errorf("got %v", err)
	}
	other := filepath.Join(dir, "bags", "other")
	broken := errors.New("broken")
	if err := Folder(ctx, other, func(stage string) error { put(t, stage, tree{"half": ""}); return broken }); !errors.Is(err, broken) {
		t.Errorf("got %v", err)
	}
	overtaken := func(stage string) error { return os.Mkdir(other, 0o777) }
	if err := Folder(ctx, other, overtaken); !errors.Is(err, fs.ErrExist) {
		t.Errorf("overtaken by another: %v", err)
	}
	mustBeAlone(t, final, "other")
}

// What a run that was cut off left is cleared away by the next on that name.
func TestFolderClearsAwayLeftovers(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, tree{".bag.staging-0123456789abcdef/half": "", ".bag.staging-mine/kept": "", ".bagx.staging-0123456789abcdef/kept": ""})
	if err := Folder(context.Background(), filepath.Join(dir, "bag"), func(string) error { return nil }); err != nil {
		t.Fatal(err)
	}
	mustHold(t, dir, tree{".bag.staging-mine/kept": "", ".bagx.staging-0123456789abcdef/kept": ""})
}
