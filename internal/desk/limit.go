package desk

import (
	"net"
	"sync"
)

// The most connections at once. A browser opens six; a class of forty behind one address opens 240. Judged by eye.
const (
	mostConnections = 1024
	mostOfOne       = 320 // from one address
)

// limited closes a connection beyond the limits at once.
func limited(l net.Listener) net.Listener { return &limiter{Listener: l, of: map[string]int{}} }

type limiter struct {
	net.Listener
	mutex sync.Mutex
	all   int
	of    map[string]int // by address
}

// Accept returns the next connection within the limits.
func (l *limiter) Accept() (net.Conn, error) {
	for {
		c, err := l.Listener.Accept()
		if err != nil {
			return nil, err
		}
		from := c.RemoteAddr().String()
		if host, _, err := net.SplitHostPort(from); err == nil {
			from = host
		}
		if l.count(from, 1) {
			return &counted{Conn: c, gone: sync.OnceFunc(func() { l.count(from, -1) })}, nil
		}
		c.Close()
	}
}

// count adds a connection, if there is room for it, or takes one off.
func (l *limiter) count(from string, by int) bool {
	l.mutex.Lock()
	defer l.mutex.Unlock()
	if by > 0 && (l.all >= mostConnections || l.of[from] >= mostOfOne) {
		return false
	}
	l.all += by
	if l.of[from] += by; l.of[from] == 0 {
		delete(l.of, from)
	}
	return true
}

// counted is a connection that is counted until it is closed.
type counted struct {
	net.Conn
	gone func()
}

// Close closes the connection.
func (c *counted) Close() error {
	c.gone()
	return c.Conn.Close()
}
