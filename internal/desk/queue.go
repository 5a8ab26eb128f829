package desk

import (
	"context"
	"errors"
	"slices"
	"sync"
)

// mostWaiting is how many calls wait at once: a class of sixty, one call each. Judged by eye.
const mostWaiting = 64

// errFull is the answer to a call for which there is no room to wait.
var errFull = errors.New("too many calls wait; try again")

// queue lets some calls work at a time. The others wait in turns of their callers: whoever has many calls waiting holds nobody else up.
type queue struct {
	mutex   sync.Mutex
	free    int // workers
	most    int // that may wait
	waiting []line
}

// line is what one caller has waiting, in order. The first line of the queue has the next turn.
type line struct {
	caller string
	turns  []chan bool // true: work; false: there was no room
}

func newQueue(workers, most int) *queue { return &queue{free: workers, most: most} }

// enter waits for the caller's turn, or until ctx ends. Whoever entered without an error has to leave.
func (q *queue) enter(ctx context.Context, caller string) error {
	turn, err := q.wait(caller)
	if turn == nil {
		return err
	}
	select {
	case work := <-turn:
		if !work {
			return errFull
		}
		return nil
	case <-ctx.Done():
		q.giveUp(turn)
		return ctx.Err()
	}
}

// wait takes a free worker, and then returns nothing, or a turn in the caller's line.
func (q *queue) wait(caller string) (chan bool, error) {
	q.mutex.Lock()
	defer q.mutex.Unlock()
	if q.free > 0 {
		q.free--
		return nil, nil
	}
	mine := slices.IndexFunc(q.waiting, func(l line) bool { return l.caller == caller })
	if q.length() >= q.most && !q.makeRoom(mine) {
		return nil, errFull
	}
	if mine < 0 {
		mine, q.waiting = len(q.waiting), append(q.waiting, line{caller: caller})
	}
	turn := make(chan bool, 1)
	q.waiting[mine].turns = append(q.waiting[mine].turns, turn)
	return turn, nil
}

// isBusy reports whether no worker is free.
func (q *queue) isBusy() bool {
	q.mutex.Lock()
	defer q.mutex.Unlock()
	return q.free == 0
}

func (q *queue) length() (n int) {
	for _, l := range q.waiting {
		n += len(l.turns)
	}
	return n
}

// makeRoom sends away the last call of the longest line, unless that would be no longer than the newcomer's own would be.
func (q *queue) makeRoom(mine int) bool {
	longest, own := 0, 0
	for i, l := range q.waiting {
		if len(l.turns) > len(q.waiting[longest].turns) {
			longest = i
		}
	}
	if mine >= 0 {
		own = len(q.waiting[mine].turns)
	}
	turns := q.waiting[longest].turns
	if len(turns) <= own+1 {
		return false
	}
	turns[len(turns)-1] <- false
	q.waiting[longest].turns = turns[:len(turns)-1]
	return true
}

// giveUp takes a turn out of its line, or hands it on if it has come meanwhile.
func (q *queue) giveUp(turn chan bool) {
	q.mutex.Lock()
	for i, l := range q.waiting {
		if k := slices.Index(l.turns, turn); k >= 0 {
			if q.waiting[i].turns = slices.Delete(l.turns, k, k+1); len(q.waiting[i].turns) == 0 {
				q.waiting = slices.Delete(q.waiting, i, i+1)
			}
			q.mutex.Unlock()
			return
		}
	}
	q.mutex.Unlock()
	if <-turn {
		q.leave()
	}
}

// leave ends a call's work: the next caller has a turn.
func (q *queue) leave() {
	q.mutex.Lock()
	defer q.mutex.Unlock()
	if len(q.waiting) == 0 {
		q.free++
		return
	}
	next := q.waiting[0]
	next.turns[0] <- true
	next.turns = next.turns[1:]
	if q.waiting = q.waiting[1:]; len(next.turns) > 0 {
		q.waiting = append(q.waiting, next)
	}
}
