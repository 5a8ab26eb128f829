package desk

import (
	"crypto/hmac"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base32"
	"encoding/base64"
	"net/http"
	"slices"
	"strings"
	"sync"
	"time"
)

// doors let in whoever knows the word that was printed. It is exchanged for a bearer (RFC 6750, MEM), which proves by itself that it was
// given here, so that nothing is kept of those who entered.
type doors struct {
	word  string
	key   []byte
	mutex sync.Mutex
	wrong map[string][]time.Time // when an address gave wrong words
}

// Guessing is held to so many wrong words in such a time from one address, and to so many addresses.
const (
	mostWrong    = 5
	wrongIn      = time.Minute
	mostGuessing = 10_000
)

// wordLetters are digits and letters that nobody takes for one another (the base 32 of Crockford, MEM): ten of them are 50 bits.
const (
	wordLetters = "0123456789abcdefghjkmnpqrstvwxyz"
	wordGroup   = 5
)

func newDoors() *doors {
	random := make([]byte, 7+sha256.Size)
	rand.Read(random) // never fails
	word := base32.NewEncoding(wordLetters).WithPadding(base32.NoPadding).EncodeToString(random[:7])[:2*wordGroup]
	return &doors{word: word[:wordGroup] + "-" + word[wordGroup:], key: random[7:], wrong: map[string][]time.Time{}}
}

// plainWord is a word however it was typed.
func plainWord(typed string) string {
	return strings.NewReplacer("-", "", " ", "", "o", "0", "i", "1", "l", "1").Replace(strings.ToLower(typed))
}

// try takes a word from an address at a time, and reports whether it is right, and whether the address may try at all.
func (d *doors) try(typed, from string, now time.Time) (right, allowed bool) {
	d.mutex.Lock()
	defer d.mutex.Unlock()
	recent := slices.DeleteFunc(d.wrong[from], func(t time.Time) bool { return now.Sub(t) >= wrongIn })
	if d.wrong[from] = recent; len(recent) == 0 {
		delete(d.wrong, from)
	}
	if len(recent) >= mostWrong || len(d.wrong) >= mostGuessing && d.wrong[from] == nil && !d.forget(now) {
		return false, false
	}
	a, b := sha256.Sum256([]byte(plainWord(typed))), sha256.Sum256([]byte(plainWord(d.word)))
	if subtle.ConstantTimeCompare(a[:], b[:]) == 1 {
		return true, true
	}
	d.wrong[from] = append(recent, now)
	return false, true
}

// forget drops addresses that have waited long enough, and reports whether there were any.
func (d *doors) forget(now time.Time) bool {
	before := len(d.wrong)
	for from, tries := range d.wrong {
		if now.Sub(tries[len(tries)-1]) >= wrongIn {
			delete(d.wrong, from)
		}
	}
	return len(d.wrong) < before
}

// bearer returns a new one.
func (d *doors) bearer() string {
	const nonce = 16
	random := make([]byte, nonce, nonce+sha256.Size)
	rand.Read(random) // never fails
	return base64.RawURLEncoding.EncodeToString(append(random, d.sign(random)...))
}

func (d *doors) sign(nonce []byte) []byte {
	mac := hmac.New(sha256.New, d.key)
	mac.Write(nonce)
	return mac.Sum(nil)
}

// holds reports whether a bearer was given here.
func (d *doors) holds(bearer string) bool {
	data, err := base64.RawURLEncoding.DecodeString(bearer)
	if err != nil || len(data) <= sha256.Size {
		return false
	}
	nonce, mac := data[:len(data)-sha256.Size], data[len(data)-sha256.Size:]
	return hmac.Equal(mac, d.sign(nonce))
}

// AskForWord makes the desk answer only those who know a word, and returns it.
func (d *Desk) AskForWord() string {
	d.doors = newDoors()
	return d.doors.word
}

// admits reports whether a call may go on, and refuses it if not.
func (d *Desk) admits(w http.ResponseWriter, r *http.Request) bool {
	if d.doors == nil {
		return true
	}
	if bearer, ok := strings.CutPrefix(r.Header.Get("Authorization"), "Bearer "); ok && d.doors.holds(bearer) {
		return true
	}
	w.Header().Set("WWW-Authenticate", `Bearer realm="hubrule desk"`) // RFC 9110, 15.5.2 (MEM)
	refuse(w, http.StatusUnauthorized, "want the word that the desk printed")
	return false
}

// enter exchanges the word for a bearer.
func (d *Desk) enter(w http.ResponseWriter, r *http.Request) {
	body, status, err := d.readBody(w, r)
	if err != nil {
		refuse(w, status, err.Error())
		return
	}
	var in struct {
		Word string `json:"word"`
	}
	if err := decode(body, &in); err != nil {
		refuse(w, http.StatusBadRequest, err.Error())
		return
	}
	right, allowed := d.doors.try(in.Word, callerOf(r), time.Now())
	switch {
	case !allowed:
		w.Header().Set("Retry-After", "60")
		refuse(w, http.StatusTooManyRequests, "too many wrong words; wait a minute") // RFC 6585, 4 (MEM)
	case !right:
		w.Header().Set("WWW-Authenticate", `Bearer realm="hubrule desk"`)
		refuse(w, http.StatusUnauthorized, "this is not the word")
	default:
		answer(w, http.StatusOK, map[string]string{"bearer": d.doors.bearer()})
	}
}
