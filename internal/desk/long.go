package desk

import (
	"context"
	"errors"
	"fmt"
	"mime"
	"net/http"
	"time"

	"hubrule/internal/fault"
)

// longCall is a call whose work is done in many turns.
type longCall struct {
	answer func(d *Desk, t *turns, body []byte) (any, error)
	wait   time.Duration // for all of it
}

// longCalls are the paths of those.
func longCalls() map[string]longCall {
	return map[string]longCall{"/class/page": {(*Desk).classPage, workWait}, "/class/check": {(*Desk).classCheck, workWait},
		"/class/print": {(*Desk).classPrint, printWait}}
}

// answerLong reads the body and answers in turns of the caller.
func (d *Desk) answerLong(w http.ResponseWriter, r *http.Request, c longCall) {
	body, status, err := d.readBody(w, r)
	if err != nil {
		refuse(w, status, err.Error())
		return
	}
	ctx, cancel := context.WithTimeout(r.Context(), c.wait)
	defer cancel()
	out, err := c.run(d, &turns{queue: d.queue, caller: callerOf(r), ctx: ctx}, body)
	var broken *fault.Fault
	switch s, streams := out.(stream); {
	case errors.Is(err, errFull):
		refuseBusy(w, err)
	case errors.As(err, &broken):
		refuse(w, http.StatusInternalServerError, err.Error())
	case errors.Is(err, context.DeadlineExceeded):
		refuse(w, http.StatusUnprocessableEntity, fmt.Sprintf("this takes longer than %v; print it with hubrule handout", c.wait))
	case err != nil:
		status, out := refusal(err)
		answer(w, status, out)
	case streams:
		_ = http.NewResponseController(w).SetWriteDeadline(time.Now().Add(c.wait)) // a test's recorder has none
		w.Header().Set("Content-Type", s.mime)
		w.Header().Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": s.name})) // RFC 6266 (MEM)
		if s.write(w) != nil {
			panic(http.ErrAbortHandler) // a file that is cut short must not look whole
		}
	default:
		answer(w, http.StatusOK, out)
	}
}

func (c longCall) run(d *Desk, t *turns, body []byte) (out any, err error) {
	defer fault.Catch(func(e error) { err = e })
	return c.answer(d, t, body)
}
