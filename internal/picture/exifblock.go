package picture

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"io"
)

// mostEXIF is how much of a block of EXIF is read; a segment of a JPEG holds 64 kB.
const mostEXIF = 1 << 20

// block reads the next bytes, or as many of them as there are.
func block(r io.Reader, length uint32) []byte {
	data, _ := io.ReadAll(io.LimitReader(r, int64(min(length, mostEXIF))))
	return data
}

// jpegEXIF walks to the first segment of EXIF before the pixels; nil if there is none.
func jpegEXIF(r *bufio.Reader) []byte {
	r.Discard(2)
	for {
		head, err := r.Peek(4)
		if err != nil || head[0] != 0xff || head[1] == 0xda {
			return nil
		}
		if head[1] == 0xff { // the byte before only fills
			r.Discard(1)
			continue
		}
		marker, length := head[1], max(2, int(binary.BigEndian.Uint16(head[2:])))-2
		r.Discard(4)
		if marker != 0xe1 {
			r.Discard(length)
		} else if data, isEXIF := bytes.CutPrefix(block(r, uint32(length)), []byte("Exif\x00\x00")); isEXIF {
			return data
		}
	}
}

// pngEXIF walks to the chunk of EXIF (PNG, third edition, 11.3.2.8: MEM); nil if there is none.
func pngEXIF(r *bufio.Reader) []byte {
	r.Discard(8)
	for {
		head, err := r.Peek(8)
		if err != nil {
			return nil
		}
		length, name := binary.BigEndian.Uint32(head), string(head[4:])
		r.Discard(8)
		if name == "eXIf" {
			return block(r, length)
		}
		if _, err := io.CopyN(io.Discard, r, int64(length)+4); err != nil {
			return nil
		}
	}
}

// webpEXIF walks to the chunk of EXIF, where the header says that there is one (RFC 9649, 2.7: MEM); nil if there is none.
func webpEXIF(r *bufio.Reader) []byte {
	const hasEXIF = 1 << 3
	r.Discard(12)
	for {
		head, err := r.Peek(8)
		if err != nil {
			return nil
		}
		name, length := string(head[:4]), binary.LittleEndian.Uint32(head[4:])
		r.Discard(8)
		if name == "EXIF" {
			return block(r, length)
		}
		if flags, err := r.Peek(1); name == "VP8X" && err == nil && flags[0]&hasEXIF == 0 {
			return nil
		}
		if _, err := io.CopyN(io.Discard, r, int64(length)+int64(length&1)); err != nil {
			return nil
		}
	}
}
