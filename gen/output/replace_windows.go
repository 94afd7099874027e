package output

import "os"

// replaceFile does what renameio does elsewhere; that library leaves Windows
// out because its rename promises less after a power cut.
func replaceFile(name string, data []byte) error {
	f, stage, err := createStage(name)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	if e := f.Close(); err == nil {
		err = e
	}
	if err == nil {
		err = os.Rename(stage, name)
	}
	if err != nil {
		os.Remove(stage)
	}
	return err
}
