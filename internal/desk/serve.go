package desk

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log"
	"mime"
	"net"
	"net/http"
	"os"
	"slices"
	"strconv"
	"strings"
	"time"

	"hubrule/internal/fault"
)

// The bounds of one call. A job is a few hundred bytes; all waits are judged by eye.
const (
	mostBody   = 256 << 10
	mostClass  = 1 << 20 // ten thousand names
	mostHeader = 16 << 10
	headerWait = 5 * time.Second
	bodyWait   = 10 * time.Second
	workWait   = 30 * time.Second
	answerWait = 5 * time.Minute // from the header to the last byte, with the time in the queue
	idleWait   = time.Minute
	closeWait  = 2 * time.Second
)

// Serve answers until ctx ends. Host is what the address was given as.
func (d *Desk) Serve(ctx context.Context, l net.Listener, host string) error {
	_, port, err := net.SplitHostPort(l.Addr().String())
	if err != nil {
		return err
	}
	server := &http.Server{
		Handler:           address{host, port}.guarded(d.handler()),
		ReadHeaderTimeout: headerWait, WriteTimeout: answerWait, IdleTimeout: idleWait, MaxHeaderBytes: mostHeader,
		ErrorLog: log.New(io.Discard, "", 0), // what strangers send is theirs to know
	}
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(limited(l)) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	last, cancel := context.WithTimeout(context.Background(), closeWait)
	defer cancel()
	if server.Shutdown(last) != nil {
		server.Close()
	}
	return nil
}

// handler routes the page's files, lists and calls.
func (d *Desk) handler() http.Handler {
	mux := http.NewServeMux()
	for path, p := range pageParts() {
		if path == "/" {
			path = "/{$}"
		}
		mux.Handle("GET "+path, p)
	}
	for path, list := range d.lists() {
		mux.HandleFunc("GET "+path, func(w http.ResponseWriter, r *http.Request) {
			if d.admits(w, r) {
				answer(w, http.StatusOK, list())
			}
		})
	}
	for path, c := range longCalls() {
		mux.HandleFunc("POST "+path, func(w http.ResponseWriter, r *http.Request) {
			if d.admits(w, r) {
				d.answerLong(w, r, c)
			}
		})
	}
	mux.HandleFunc("POST /class/progress", func(w http.ResponseWriter, r *http.Request) {
		if d.admits(w, r) {
			d.classProgress(w, r)
		}
	})
	for path, c := range calls() {
		mux.HandleFunc("POST "+path, func(w http.ResponseWriter, r *http.Request) {
			if d.admits(w, r) {
				d.heldBack(w, r, func() { d.answerCall(w, r, c) })
			}
		})
	}
	mux.HandleFunc("GET /picture", d.servePicture)
	if d.doors != nil {
		mux.HandleFunc("POST /enter", d.enter)
	}
	return mux
}

// answerCall reads the body, waits for the caller's turn and answers.
func (d *Desk) answerCall(w http.ResponseWriter, r *http.Request, c call) {
	body, status, err := d.readBody(w, r)
	if err != nil {
		refuse(w, status, err.Error())
		return
	}
	if bringsPicture(r) {
		leave, err := take(r.Context(), d.pictures.working)
		if err != nil {
			refuseBusy(w, err)
			return
		}
		defer leave()
	}
	if err := d.queue.enter(r.Context(), callerOf(r)); err != nil {
		refuseBusy(w, err)
		return
	}
	out, err := d.work(r.Context(), c, body)
	var broken *fault.Fault
	switch {
	case errors.As(err, &broken):
		refuse(w, http.StatusInternalServerError, err.Error())
	case err != nil:
		status, out := refusal(err)
		answer(w, status, out)
	default:
		answer(w, http.StatusOK, out)
	}
}

func refuseBusy(w http.ResponseWriter, err error) {
	w.Header().Set("Retry-After", "1") // seconds; RFC 9110, 10.2.3 (MEM)
	refuse(w, http.StatusServiceUnavailable, err.Error())
}

// work runs a call in its turn.
func (d *Desk) work(ctx context.Context, c call, body []byte) (out any, err error) {
	defer d.queue.leave()
	ctx, cancel := context.WithTimeout(ctx, workWait)
	defer cancel()
	defer fault.Catch(func(e error) { err = e })
	return c(d, ctx, body)
}

// callerOf is whose turn a call takes.
func callerOf(r *http.Request) string {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		return r.RemoteAddr
	}
	return host
}

// readBody reads a JSON body within its bounds. The status is that of an error.
func (d *Desk) readBody(w http.ResponseWriter, r *http.Request) (body []byte, status int, err error) {
	if kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type")); err != nil || kind != "application/json" {
		return nil, http.StatusUnsupportedMediaType, errors.New("want a body of application/json") // RFC 9110, 15.5.16 (MEM)
	}
	most, wait := mostOf(r.URL.Path), d.bodyWait
	if bringsPicture(r) {
		most, wait = mostPictureBody, pictureWait
	}
	tooLarge := fmt.Errorf("the body is larger than %d bytes", most)
	if r.ContentLength > most { // RFC 9110, 15.5.14: refused before it is read (MEM)
		w.Header().Set("Connection", "close")
		return nil, http.StatusRequestEntityTooLarge, tooLarge
	}
	_ = http.NewResponseController(w).SetReadDeadline(time.Now().Add(wait)) // a test's recorder has none
	var whole bytes.Buffer
	if bringsPicture(r) { // few are read at a time
		whole.Grow(int(max(r.ContentLength, 0)) + bytes.MinRead)
	}
	_, err = whole.ReadFrom(http.MaxBytesReader(w, r.Body, most))
	body = whole.Bytes()
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &large):
		return nil, http.StatusRequestEntityTooLarge, tooLarge
	case errors.Is(err, os.ErrDeadlineExceeded):
		w.Header().Set("Connection", "close")
		return nil, http.StatusRequestTimeout, errors.New("the body came too slowly") // RFC 9110, 15.5.9 (MEM)
	case err != nil:
		return nil, http.StatusBadRequest, errors.New("the body broke off")
	}
	_ = http.NewResponseController(w).SetReadDeadline(time.Time{})
	return body, 0, nil
}

// mostOf is how large the body of a call may be.
func mostOf(path string) int64 {
	if strings.HasPrefix(path, "/class/") || slices.Contains([]string{"/command", "/open"}, path) {
		return mostClass
	}
	return mostBody
}

// refuse answers with one problem that has no place in a job.
func refuse(w http.ResponseWriter, status int, text string) {
	answer(w, status, problems{[]problem{{Text: text}}})
}

// answer writes a file, or JSON in UTF-8.
func answer(w http.ResponseWriter, status int, out any) {
	h := w.Header()
	if f, ok := out.(file); ok {
		h.Set("Content-Type", f.mime)
		h.Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": f.name})) // RFC 6266 (MEM)
		h.Set("Content-Length", strconv.Itoa(len(f.data)))
		w.Write(f.data)
		return
	}
	h.Set("Content-Type", "application/json")
	w.WriteHeader(status)
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	_ = e.Encode(out) // the client may be gone
}
