package web

import (
	"context"
	"crypto/rand"
	"encoding/base32"
	"errors"
	"fmt"
	"net"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"evidencevault/extract/page"
	"evidencevault/intake"
	"evidencevault/journal"
)

// Options says how the page is served. Pages is required, and either Journal with Intake
// or, where there is no vault yet, Begin with Dir.
type Options struct {
	Journal *journal.Journal
	Intake  *intake.Intake // takes in what is dropped onto the page
	Pages   *page.Reader   // draws pages
	Begin   Begin          // makes a vault by the page's first steps
	Dir     string         // where Begin makes it, to be shown
	Port    int            // on 127.0.0.1; 0: any that is free
	Upload  int64          // most bytes of one upload; 0: 256 MiB
	Failed  func(error)    // told of errors that a visitor sees only as "went wrong"; nil: nobody
}

// Limits of what a visitor may send, and how slowly.
const (
	mostHeader  = 16 << 10
	mostForm    = 1 << 20
	mostUpload  = 256 << 20
	headTime    = 5 * time.Second
	requestTime = 30 * time.Second
	uploadTime  = 10 * time.Minute
	idleTime    = 2 * time.Minute
)

// Server is the page of one vault.
type Server struct {
	o        Options
	secret   string
	listener net.Listener
	hosts    []string
	pictures *pictures

	notesLock sync.Mutex
	notes     map[string]note
	noteCount int
	made      workshop
	waits     waitingList
	begun     atomic.Bool // there is a vault; o.Journal is set before
	beginLock sync.Mutex
	ended     context.Context // ends the streams when the server ends
	end       context.CancelFunc
}

// New listens on loopback, and serves nothing before [Server.Serve]. The error says
// that the port is taken, or that there is no loopback.
func New(o Options) (*Server, error) {
	if o.Upload == 0 {
		o.Upload = mostUpload
	}
	listener, err := net.Listen("tcp4", net.JoinHostPort("127.0.0.1", strconv.Itoa(o.Port)))
	if err != nil {
		return nil, fmt.Errorf("serving the page: %w; choose another port with --port", err)
	}
	var bits [16]byte
	_, _ = rand.Read(bits[:]) // never fails, see crypto/rand
	_, port, _ := net.SplitHostPort(listener.Addr().String())
	s := &Server{o: o, listener: listener, notes: map[string]note{},
		secret: strings.ToLower(strings.TrimRight(base32.StdEncoding.EncodeToString(bits[:]), "="))}
	if o.Journal != nil {
		s.pictures = newPictures(o.Pages, o.Journal.Catalog().Store())
		s.begun.Store(true)
	}
	for _, host := range []string{"127.0.0.1", "localhost", "[::1]"} {
		s.hosts = append(s.hosts, host+":"+port)
	}
	s.ended, s.end = context.WithCancel(context.Background())
	return s, nil
}

// Address is where the page is, with its secret: whoever has it can use the vault.
func (s *Server) Address() string {
	return "http://" + s.listener.Addr().String() + "/" + s.secret + "/"
}

// Serve serves until ctx ends, then lets requests that are under way finish.
func (s *Server) Serve(ctx context.Context) (err error) {
	srv := &http.Server{
		Handler: s.Handler(), MaxHeaderBytes: mostHeader,
		ReadHeaderTimeout: headTime, ReadTimeout: requestTime, WriteTimeout: requestTime, IdleTimeout: idleTime,
	}
	stop := context.AfterFunc(ctx, func() {
		s.end()
		end, cancel := context.WithTimeout(context.WithoutCancel(ctx), headTime)
		defer cancel()
		_ = srv.Shutdown(end) // Serve returns what matters
	})
	defer stop()
	defer func() {
		s.end()
		err = errors.Join(err, s.made.close())
	}()
	if err := srv.Serve(s.listener); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}
