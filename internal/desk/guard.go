package desk

import (
	"net"
	"net/http"
	"net/netip"
	"path"
	"strings"
)

// address is where the desk is reached.
type address struct {
	host string // as it was given
	port string
}

// policy lets the page load nothing from elsewhere, run no script but its own, and stand in no other page (CSP Level 3; MEM).
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self' data: blob:; " +
	"connect-src 'self'; form-action 'none'; base-uri 'none'; frame-ancestors 'none'"

// guarded refuses what does not come from the desk's own page, before anything else is looked at.
func (a address) guarded(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cache-Control", "no-store")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		switch why := a.foreign(r); {
		case why != "":
			refuse(w, http.StatusForbidden, why)
		case r.URL.RawPath != "" || path.Clean(r.URL.Path) != r.URL.Path || strings.ContainsAny(r.URL.Path, "\\\x00"):
			refuse(w, http.StatusNotFound, "no such path")
		default:
			next.ServeHTTP(w, r)
		}
	})
}

// foreign says why a request does not come from the desk's own page; "" where it does. A name that another site has turned towards this
// machine is foreign too: only the name that the desk listens on, and literal addresses, are its own.
func (a address) foreign(r *http.Request) string {
	if !a.isOwn(r) {
		return "this is not the address that the desk printed"
	}
	origin, post := r.Header.Get("Origin"), r.Method == http.MethodPost
	if origin != "http://"+r.Host && (post || origin != "") { // RFC 6454, 6.2: the serialized origin (MEM)
		return "the call comes from another page"
	}
	// Fetch Metadata: a browser says how the caller relates to the desk; none is a person who typed the address (MEM).
	switch site := r.Header.Get("Sec-Fetch-Site"); {
	case site == "" || site == "same-origin" || !post && site == "none":
	case !post && r.Header.Get("Sec-Fetch-Mode") == "navigate": // a link to the page
	default:
		return "the call comes from another site"
	}
	return ""
}

// isOwn reports whether the Host of a request is the desk's: its name and port, or the literal address that the connection reached.
func (a address) isOwn(r *http.Request) bool {
	host, port, err := net.SplitHostPort(r.Host)
	if err != nil {
		host, port = strings.Trim(r.Host, "[]"), "80" // RFC 9110, 4.2.1: the port of http (MEM)
	}
	if port != a.port {
		return false
	}
	if strings.EqualFold(host, a.host) {
		return true
	}
	named, err := netip.ParseAddr(host)
	local, ok := r.Context().Value(http.LocalAddrContextKey).(net.Addr)
	if err != nil || !ok {
		return false
	}
	reached, err := netip.ParseAddrPort(local.String())
	return err == nil && named.Unmap() == reached.Addr().Unmap()
}

// IsLoopback reports whether only this machine reaches an address.
func IsLoopback(host string) bool {
	ip, err := netip.ParseAddr(host)
	return err == nil && ip.IsLoopback() || strings.EqualFold(host, "localhost")
}
