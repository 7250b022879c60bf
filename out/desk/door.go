package desk

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/base64"
	"net"
	"net/http"
	"strings"
	"sync"
)

// Door decides who may come in.
type Door struct {
	Token string // what the program prints, and who knows it may look

	base   string // a path that nobody can guess, so that other servers on this machine never see the cookie
	cookie string
	hosts  map[string]bool

	mu      sync.Mutex
	tickets map[string]bool // that nobody has used
}

// NewDoor makes a door for a server that listens on a loopback address.
func NewDoor(addr net.Addr) *Door {
	_, port, _ := net.SplitHostPort(addr.String())
	d := &Door{Token: secret(), base: "/" + secret() + "/", cookie: secret(), hosts: map[string]bool{}, tickets: map[string]bool{}}
	for _, host := range []string{"127.0.0.1", "localhost", "[::1]"} {
		d.hosts[host+":"+port] = true
	}
	return d
}

// secret gives 128 bits that nobody can guess.
func secret() string {
	var b [16]byte
	rand.Read(b[:]) //nolint:errcheck // it never fails
	return base64.RawURLEncoding.EncodeToString(b[:])
}

// cookieName is the name of the cookie that says who has come in.
const cookieName = "ferrule-desk"

// policy lets a page load what its own server has and nothing else.
const policy = "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:; font-src 'self'; connect-src 'self'; " +
	"form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// guard holds every request to the server's own names, and what changes anything to its own pages. Names that only resolve to this machine are refused: their pages could read the answers.
func (d *Door) guard(next http.Handler) http.Handler {
	cross := http.NewCrossOriginProtection()
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		if !d.hosts[strings.ToLower(r.Host)] {
			http.Error(w, "this server answers only to its own address", http.StatusMisdirectedRequest)
			return
		}
		if site := r.Header.Get("Sec-Fetch-Site"); site == "cross-site" && r.URL.Path != "/" {
			http.Error(w, "not from another site", http.StatusForbidden)
			return
		}
		if err := cross.Check(r); err != nil {
			http.Error(w, "not from another site", http.StatusForbidden)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// known tells whether a request comes from somebody who has come in.
func (d *Door) known(r *http.Request) bool {
	c, err := r.Cookie(cookieName)
	return err == nil && same(c.Value, d.cookie)
}

func same(a, b string) bool { return subtle.ConstantTimeCompare([]byte(a), []byte(b)) == 1 }

// Ticket gives what lets in once. The command line of a browser, which others on this machine may read, gets
// it in the place of the token.
func (d *Door) Ticket() string {
	d.mu.Lock()
	defer d.mu.Unlock()
	t := secret()
	d.tickets[t] = true
	return t
}

// opens tells whether somebody may come in by a token or a ticket, which is used up by that.
func (d *Door) opens(key string) bool {
	if same(key, d.Token) {
		return true
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	for t := range d.tickets {
		if same(key, t) {
			delete(d.tickets, t)
			return true
		}
	}
	return false
}

// enter lets in who knows the token, or has a ticket.
func (d *Door) enter(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, 4096)
	if !d.opens(strings.TrimSpace(r.PostFormValue("token"))) {
		w.WriteHeader(http.StatusForbidden)
		d.entrance(w, "That is not the token that the program printed, or an address that was used before.")
		return
	}
	http.SetCookie(w, &http.Cookie{Name: cookieName, Value: d.cookie, Path: d.base, HttpOnly: true, SameSite: http.SameSiteStrictMode})
	http.Redirect(w, r, d.base+"findings", http.StatusSeeOther)
}

// entrance shows where the token goes.
func (d *Door) entrance(w http.ResponseWriter, trouble string) {
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	print(w, "entrance", trouble)
}
