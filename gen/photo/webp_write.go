package photo

import (
	"bytes"
	"compress/gzip"
	"context"
	_ "embed"
	"errors"
	"fmt"
	"image"
	"io"
	"sync"

	"github.com/tetratelabs/wazero"
	"github.com/tetratelabs/wazero/api"
	"github.com/tetratelabs/wazero/imports/wasi_snapshot_preview1"
)

// libwebpPacked is libwebp as WebAssembly (see libwebp/README.md). It sees no
// file, clock or network, and is given nothing but pixels of our own making.
//
//go:embed libwebp/webp.wasm.gz
var libwebpPacked []byte

// webpCoder is the compiled program.
type webpCoder struct {
	runtime wazero.Runtime
	program wazero.CompiledModule
}

// libwebp compiles the program at its first use, which takes a quarter of a
// second.
var libwebp = sync.OnceValues(func() (*webpCoder, error) {
	unpacked, err := gzip.NewReader(bytes.NewReader(libwebpPacked))
	if err != nil {
		return nil, err
	}
	program, err := io.ReadAll(unpacked)
	if err != nil {
		return nil, err
	}
	ctx := context.Background()
	r := wazero.NewRuntime(ctx)
	if _, err := wasi_snapshot_preview1.Instantiate(ctx, r); err != nil {
		return nil, err
	}
	compiled, err := r.CompileModule(ctx, program)
	return &webpCoder{r, compiled}, err
})

// webpMethod is libwebp's default balance of size and time, from 0 to 6.
const webpMethod = 4

// encodeWebP writes an opaque picture as a lossy WebP. The qualities of libwebp
// and of JPEG differ in meaning; about 80 they give pictures that are as like
// the original (by SSIM) as each other.
func encodeWebP(ctx context.Context, img *image.NRGBA, quality int) (made, error) {
	if err := ctx.Err(); err != nil {
		return made{}, err
	}
	coder, err := libwebp()
	if err != nil {
		return made{}, fmt.Errorf("libwebp: %w", err)
	}
	// Every call has an instance, and so memory, of its own.
	m, err := coder.runtime.InstantiateModule(ctx, coder.program, wazero.NewModuleConfig().WithName(""))
	if err != nil {
		return made{}, fmt.Errorf("libwebp: %w", err)
	}
	defer m.Close(ctx)
	size := Size{img.Rect.Dx(), img.Rect.Dy()}
	b, err := runWebP(ctx, m, img.Pix, size, quality)
	if err != nil {
		return made{}, fmt.Errorf("libwebp: %w", err)
	}
	return made{size, WebP, b}, nil
}

var errWebP = errors.New("no memory, or no picture made")

// runWebP calls the program's function encode: pixels, width, height, where to
// put the size, colour space (0: RGBA), quality, method, lossless, exact. It
// returns where the file lies.
func runWebP(ctx context.Context, m api.Module, pix []uint8, size Size, quality int) ([]byte, error) {
	in, err := call(ctx, m, "malloc", uint64(len(pix)))
	if err != nil {
		return nil, err
	}
	length, err := call(ctx, m, "malloc", 8)
	if err != nil {
		return nil, err
	}
	if !m.Memory().Write(uint32(in), pix) {
		return nil, errWebP
	}
	out, err := call(ctx, m, "encode", in, uint64(size.Width), uint64(size.Height), length, 0, uint64(quality), webpMethod, 0, 0)
	if err != nil {
		return nil, err
	}
	n, ok := m.Memory().ReadUint32Le(uint32(length))
	if !ok || n == 0 {
		return nil, errWebP
	}
	b, ok := m.Memory().Read(uint32(out), n)
	if !ok {
		return nil, errWebP
	}
	return bytes.Clone(b), nil
}

// call calls a function of the program whose result is an address.
func call(ctx context.Context, m api.Module, name string, args ...uint64) (uint64, error) {
	results, err := m.ExportedFunction(name).Call(ctx, args...)
	if err != nil {
		return 0, err
	}
	if len(results) != 1 || results[0] == 0 {
		return 0, errWebP
	}
	return results[0], nil
}
