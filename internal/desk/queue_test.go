package desk

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"
)

// enterAll has callers enter one after the other and returns a channel for each, on which its error comes.
func enterAll(t *testing.T, q *queue, callers ...string) []chan error {
	t.Helper()
	var out []chan error
	for i, caller := range callers {
		done := make(chan error, 1)
		out = append(out, done)
		before := entered(q, caller)
		go func() { done <- q.enter(context.Background(), caller) }()
		for n := 0; entered(q, caller) == before && len(done) == 0; n++ {
			if n > 1000 {
				t.Fatalf("caller %d neither waits nor works", i)
			}
			time.Sleep(time.Millisecond)
		}
	}
	return out
}

// entered returns how many calls of a caller wait.
func entered(q *queue, caller string) (n int) {
	q.mutex.Lock()
	defer q.mutex.Unlock()
	for _, l := range q.waiting {
		if l.caller == caller {
			n = len(l.turns)
		}
	}
	return n
}

func waitingIn(q *queue) int {
	q.mutex.Lock()
	defer q.mutex.Unlock()
	return q.length()
}

// TestTurns: callers have turns, however many calls one of them has waiting.
func TestTurns(t *testing.T) {
	q := newQueue(1, 10)
	callers := []string{"a", "a", "a", "a", "b", "c", "b"}
	waits := enterAll(t, q, callers...)
	var order []string
	for range callers {
		for i, w := range waits {
			if w == nil {
				continue
			}
			select {
			case err := <-w:
				if err != nil {
					t.Fatal(err)
				}
				order, waits[i] = append(order, callers[i]), nil
			case <-time.After(5 * time.Millisecond):
			}
		}
		q.leave()
	}
	if got := strings.Join(order, ""); got != "aabcaba" {
		t.Errorf("turns %s, want aabcaba", got)
	}
	if q.free != 1 || waitingIn(q) != 0 {
		t.Errorf("%d workers are free, %d calls wait", q.free, waitingIn(q))
	}
}

// TestFullQueue: beyond its length the queue refuses the call of whoever has most waiting, and takes others'.
func TestFullQueue(t *testing.T) {
	q := newQueue(0, 3)
	waits := enterAll(t, q, "a", "a", "a")
	if err := q.enter(context.Background(), "a"); !errors.Is(err, errFull) {
		t.Errorf("a fourth call of one: %v", err)
	}
	more := enterAll(t, q, "b") // takes the place of a's last
	if err := <-waits[2]; !errors.Is(err, errFull) {
		t.Errorf("a's last call: %v", err)
	}
	if err := q.enter(context.Background(), "b"); !errors.Is(err, errFull) {
		t.Errorf("b has as many as a: %v", err)
	}
	for range 3 {
		q.leave()
	}
	for i, w := range []chan error{waits[0], waits[1], more[0]} {
		if err := <-w; err != nil {
			t.Errorf("call %d: %v", i, err)
		}
	}
}

// TestGone: who goes away waits no longer, and holds nobody up.
func TestGone(t *testing.T) {
	q := newQueue(0, 3)
	ctx, stop := context.WithCancel(context.Background())
	gone := make(chan error)
	go func() { gone <- q.enter(ctx, "a") }()
	for waitingIn(q) == 0 {
		time.Sleep(time.Millisecond)
	}
	stop()
	if err := <-gone; !errors.Is(err, context.Canceled) || len(q.waiting) != 0 {
		t.Errorf("gone: %v, %d lines", err, len(q.waiting))
	}
	turn, _ := q.wait("a") // its turn comes as it goes
	q.leave()
	q.giveUp(turn)
	if q.free != 1 {
		t.Errorf("%d workers are free, want 1", q.free)
	}
}

// held is a desk whose workers are all busy.
func held(t *testing.T) (*Desk, *httptest.Server) {
	t.Helper()
	d, err := Open("", nil)
	if err != nil {
		t.Fatal(err)
	}
	d.queue, d.bodyWait = newQueue(0, 1), 50*time.Millisecond
	s := httptest.NewUnstartedServer(nil)
	host, port, err := net.SplitHostPort(s.Listener.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	s.Config.Handler = address{host, port}.guarded(d.handler())
	s.Start()
	t.Cleanup(s.Close)
	return d, s
}

// TestBusy: a call beyond the queue is refused at once and told when to come again (RFC 9110, 15.6.4, MEM), one whose body comes slowly is
// given up (15.5.9, MEM), and one whose client is gone leaves its place.
func TestBusy(t *testing.T) {
	t.Parallel()
	d, s := held(t)
	const body = `{"job": {"segment": "suv"}}`
	call := func(ctx context.Context, from io.Reader) (int, http.Header, error) {
		r, err := http.NewRequestWithContext(ctx, http.MethodPost, s.URL+"/solve", from)
		if err != nil {
			t.Fatal(err)
		}
		r.ContentLength = int64(len(body))
		r.Header = http.Header{"Origin": {s.URL}, "Content-Type": {"application/json"}}
		answer, err := s.Client().Do(r)
		if err != nil {
			return 0, nil, err
		}
		answer.Body.Close()
		return answer.StatusCode, answer.Header, nil
	}
	ctx, stop := context.WithCancel(context.Background())
	first := make(chan error)
	go func() { _, _, err := call(ctx, strings.NewReader(body)); first <- err }()
	for waitingIn(d.queue) == 0 {
		time.Sleep(time.Millisecond)
	}
	status, header, err := call(context.Background(), strings.NewReader(body))
	if err != nil || status != 503 || header.Get("Retry-After") == "" {
		t.Errorf("beyond the queue: %d, %v, %v", status, header, err)
	}
	slow, rest := io.Pipe()
	go rest.Write([]byte("{"))
	if status, _, err := call(context.Background(), slow); err != nil || status != 408 {
		t.Errorf("a slow body: %d, %v", status, err)
	}
	rest.Close()
	stop()
	if err := <-first; !errors.Is(err, context.Canceled) {
		t.Errorf("the first call: %v", err)
	}
	for n := 0; waitingIn(d.queue) > 0; n++ {
		if n > 1000 {
			t.Fatal("a call waits whose client is gone")
		}
		time.Sleep(time.Millisecond)
	}
}

// TestWrongWordsAreForgotten after a minute, and those of many addresses take no more room than is bounded.
func TestWrongWordsAreForgotten(t *testing.T) {
	d, now := newDoors(), time.Unix(0, 0)
	allowed := func(from string) bool { _, ok := d.try("x", from, now); return ok }
	var got []bool
	for range 6 {
		got = append(got, allowed("a"))
	}
	now = now.Add(wrongIn)
	if got = append(got, allowed("a")); !slices.Equal(got, []bool{true, true, true, true, true, false, true}) {
		t.Errorf("tries are allowed %v", got)
	}
	for n := range mostGuessing + 10 {
		allowed(fmt.Sprint(n))
	}
	if len(d.wrong) > mostGuessing {
		t.Errorf("%d addresses are held", len(d.wrong))
	}
	now = now.Add(wrongIn)
	if right, ok := d.try(strings.ToUpper(d.word), "new", now); !right || !ok {
		t.Error("the word is refused once the guessing is over")
	}
}

// TestLongWork: what takes too long is refused, and frees its worker.
func TestLongWork(t *testing.T) {
	t.Parallel()
	d, err := Open("", nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, job := range []string{`"sheets": ["full", "trace"]`, `"scale": "1:4", "tile": true`, `"scale": "1:20"`, `"view": "perspective"`} {
		ctx, cancel := context.WithTimeout(context.Background(), 0)
		_, err := d.work(ctx, (*Desk).keep, []byte(`{"job": {"segment": "suv", `+job+`}, "format": "pdf"}`))
		cancel()
		status, out := refusal(err)
		if p, _ := out.(problems); status != 422 || len(p.Problems) != 1 || !strings.Contains(p.Problems[0].Text, "longer than 30s") {
			t.Errorf("%s: %v, %v", job, err, out)
		}
	}
}

// TestLongWorkYields: whoever comes while long work is done waits for the pieces that are under way, not for the work; a full queue delays
// work that has begun, and does not end it.
func TestLongWorkYields(t *testing.T) {
	q := newQueue(1, 1)
	long := &turns{queue: q, caller: "long", ctx: context.Background()}
	var done atomic.Int64
	ended := make(chan error, 1)
	go func() {
		ended <- long.spread(400, func(int) { time.Sleep(200 * time.Microsecond); done.Add(1) })
	}()
	for done.Load() == 0 {
		time.Sleep(time.Millisecond)
	}
	for range 20 {
		before := done.Load()
		if err := q.enter(context.Background(), "other"); err != nil {
			if !errors.Is(err, errFull) {
				t.Fatal(err)
			}
			continue
		}
		if during := done.Load() - before; during > 4 {
			t.Errorf("%d pieces were done before another's turn came", during)
		}
		q.leave()
	}
	if err := <-ended; err != nil || done.Load() != 400 {
		t.Errorf("%d pieces were done: %v", done.Load(), err)
	}
	q.free = 0
	patient := &turns{queue: q, caller: "long", ctx: context.Background(), patience: 100 * time.Millisecond}
	came := make(chan error, 1)
	began := time.Now()
	go func() { came <- patient.do(func() {}) }()
	for waitingIn(q) == 0 {
		time.Sleep(time.Millisecond)
	}
	if waited := time.Since(began); waited < patient.patience {
		t.Errorf("patient work stands in line after %v", waited)
	}
	q.leave()
	if err := <-came; err != nil || q.free != 1 {
		t.Errorf("patient work ends with %v, %d workers free", err, q.free)
	}
	ctx, stop := context.WithCancel(context.Background())
	stopped := &turns{queue: q, caller: "long", ctx: ctx}
	if err := stopped.spread(400, func(i int) {
		if i == 10 {
			stop()
		}
	}); !errors.Is(err, context.Canceled) || q.free != 1 {
		t.Errorf("stopped work ends with %v, %d workers free", err, q.free)
	}
}
