package fault

import (
	"errors"
	"io/fs"
	"os"
)

// Plain drops the operation and the path of a file error, for a message that names the file as the user wrote it.
func Plain(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err
	}
	return err
}
