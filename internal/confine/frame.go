package confine

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"
)

// A message is a head and a body, each a run of pieces that an empty piece ends.
// A piece is its length in four bytes, big end first, and so many bytes.
const pieceBytes = 64 << 10

// errLong says that a message outgrew what its reader allows.
var errLong = errors.New("the message is longer than allowed")

// sendPart writes all of r as one part of a message.
func sendPart(w io.Writer, r io.Reader) error {
	room := pieceBytes
	if known, ok := r.(interface{ Len() int }); ok {
		room = min(room, known.Len()+1)
	}
	buf := make([]byte, 4+room+4)
	for last := false; !last; {
		n, err := io.ReadFull(r, buf[4:4+room])
		last = errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF)
		if err != nil && !last {
			return &sourceError{err}
		}
		piece := buf[:0]
		if n > 0 {
			binary.BigEndian.PutUint32(buf, uint32(n))
			piece = buf[:4+n]
		}
		if last {
			piece = append(piece, 0, 0, 0, 0) // in one go: each write may wake the other side
		}
		if _, err := w.Write(piece); err != nil {
			return err
		}
	}
	return nil
}

// sourceError says that it was the bytes to be sent that could not be read.
type sourceError struct{ err error }

func (e *sourceError) Error() string { return fmt.Sprintf("read what is to be sent: %v", e.err) }
func (e *sourceError) Unwrap() error { return e.err }

// readPart reads one part of at most most bytes. It makes room only for what has
// come, never for what is announced. io.EOF means that nothing came at all.
func readPart(r io.Reader, most int64) ([]byte, error) {
	var part []byte
	for first := true; ; first = false {
		var head [4]byte
		if _, err := io.ReadFull(r, head[:]); err != nil {
			if !first && errors.Is(err, io.EOF) {
				err = io.ErrUnexpectedEOF
			}
			return nil, err
		}
		n := int64(binary.BigEndian.Uint32(head[:]))
		switch {
		case n == 0:
			return part, nil
		case n > pieceBytes:
			return nil, fmt.Errorf("a piece of %d bytes: at most %d are allowed", n, pieceBytes)
		case int64(len(part))+n > most:
			return nil, errLong
		}
		old := len(part)
		part = append(part, make([]byte, n)...)
		if _, err := io.ReadFull(r, part[old:]); err != nil {
			if errors.Is(err, io.EOF) {
				err = io.ErrUnexpectedEOF
			}
			return nil, err
		}
	}
}
