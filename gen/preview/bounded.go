package preview

import (
	"net"
	"sync"
)

// bounded is a listener with so many connections at once; further ones wait.
type bounded struct {
	net.Listener
	places chan struct{}
	closed chan struct{}
	once   sync.Once
}

func newBounded(l net.Listener, most int) *bounded {
	return &bounded{Listener: l, places: make(chan struct{}, most), closed: make(chan struct{})}
}

// Accept waits for a free place, then for a connection.
func (b *bounded) Accept() (net.Conn, error) {
	select {
	case b.places <- struct{}{}:
	case <-b.closed:
		return nil, net.ErrClosed
	}
	conn, err := b.Listener.Accept()
	if err != nil {
		<-b.places
		return nil, err
	}
	return &placed{Conn: conn, free: sync.OnceFunc(func() { <-b.places })}, nil
}

// Close ends the listening, and the waiting for a place.
func (b *bounded) Close() error {
	b.once.Do(func() { close(b.closed) })
	return b.Listener.Close()
}

// placed is a connection that gives its place back when it is closed.
type placed struct {
	net.Conn
	free func()
}

// Close closes the connection.
func (p *placed) Close() error {
	err := p.Conn.Close()
	p.free()
	return err
}
