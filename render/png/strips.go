package png

import (
	"bytes"
	"hash/adler32"
	"io"

	"github.com/klauspost/compress/flate"

	"hubrule/internal/fault"
)

// An image is packed in strips of a megabyte or a little more: large enough that a strip's own tables of codes cost nothing, small enough
// that a few of them are no memory to speak of. Where they begin does not depend on the number of workers, nor do the bytes.
const stripSize = 1 << 20

// level is the last one that costs next to no time: a third to a half of what the levels behind it take.
const level = 5

// drawing is an image to be drawn.
type drawing struct {
	width, height int
	depth         int // bytes a pixel: red, green, blue and, where it is 4, how much they cover
	areas         []area
	watcher       Watcher // follows the strips; may be nil
}

// stripRows returns how many rows a strip has: whole bands.
func (p *drawing) stripRows() int {
	bandSize := bandHeight * (1 + p.depth*p.width)
	return bandHeight * max(1, (stripSize+bandSize-1)/bandSize)
}

// strip is a part of the image as packed, and the checksum of its size bytes before; or the fault of the worker that made it.
type strip struct {
	packed []byte
	sum    uint32
	size   int
	fault  error
}

// write sends the image as a zlib stream (RFC 1950): so many workers draw and pack a strip each, and the strips follow each other in order.
func (p *drawing) write(w io.Writer, workers int) error {
	rows := p.stripRows()
	count := (p.height + rows - 1) / rows
	workers = min(workers, count)
	stop := make(chan struct{})
	defer close(stop)
	lanes := make([]chan strip, workers)
	for k := range lanes {
		lanes[k] = make(chan strip)
		go p.work(lanes[k], stop, k*rows, workers*rows)
	}
	if _, err := w.Write([]byte{0x78, 0x5e}); err != nil { // deflate, a window of 32 KB, packed fast
		return err
	}
	sum := uint32(1)
	for n := range count {
		s := <-lanes[n%workers]
		if s.fault != nil {
			return s.fault
		}
		if _, err := w.Write(s.packed); err != nil {
			return err
		}
		sum = joined(sum, s.sum, s.size)
		if p.watcher != nil {
			p.watcher.Drawn(min((n+1)*rows, p.height), p.height)
		}
	}
	_, err := w.Write(bigEndian(sum))
	return err
}

// work draws and packs the strip at a row, and every further one by step, until the image ends or nobody wants more.
func (p *drawing) work(lane chan<- strip, stop <-chan struct{}, top, step int) {
	send := func(s strip) (wanted bool) {
		select {
		case lane <- s:
			return true
		case <-stop:
			return false
		}
	}
	defer fault.Catch(func(err error) { send(strip{fault: err}) })
	b := newBand(p.width, p.depth)
	var packed [2]bytes.Buffer // one is filled while the other is written
	packer, _ := flate.NewWriter(nil, level)
	for n := 0; top < p.height; n, top = n+1, top+step {
		out := &packed[n%2]
		out.Reset()
		packer.Reset(out)
		sum, size := adler32.New(), 0
		for y := top; y < min(top+p.stripRows(), p.height); y += bandHeight {
			b.draw(y, p.areas)
			data := b.data[:b.stride()*min(bandHeight, p.height-y)]
			sum.Write(data)
			packer.Write(data) // memory takes it all
			size += len(data)
		}
		if top+p.stripRows() < p.height {
			packer.Flush() // to a whole byte; the stream goes on
		} else {
			packer.Close()
		}
		if !send(strip{packed: out.Bytes(), sum: sum.Sum32(), size: size}) {
			return
		}
	}
}

// joined returns the Adler-32 checksum of two texts one after the other, from that of each and the length of the second.
func joined(first, second uint32, length int) uint32 {
	const base = 65521
	low := func(sum uint32) uint64 { return uint64(sum & 0xffff) }
	high := func(sum uint32) uint64 { return uint64(sum >> 16) }
	n := uint64(length % base)
	a := (low(first) + low(second) + base - 1) % base
	b := (high(first) + high(second) + n*low(first) + base - n) % base
	return uint32(b<<16 | a)
}
