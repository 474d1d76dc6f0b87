package api

import "tractcheck/api/wire"

// references registers the tables the answers stand on. They are fixed for a build, so each is
// written once and served as the contract is: with an entity tag, for GET and HEAD.
func (s *Server) references() {
	for _, reference := range wire.References() {
		s.get("/v1/reference/"+reference.Name, fixed(mediaJSON, func() ([]byte, error) { return encode(reference.Table) }))
	}
}
