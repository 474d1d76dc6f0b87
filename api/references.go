package api

import (
	"fmt"

	"tractcheck/api/wire"
)

// references registers the tables the answers stand on. They are fixed for a build, so each is
// written once and served as the contract is: with an entity tag, for GET and HEAD.
func (s *Server) references() error {
	for _, reference := range wire.References() {
		body, err := encode(reference.Table)
		if err != nil {
			return fmt.Errorf("writing the table of %s: %w", reference.Name, err)
		}
		s.get("/v1/reference/"+reference.Name, newDocument(mediaJSON, body).get)
	}
	return nil
}
