package reading

// Sheet is a printed sheet under a sketch.
type Sheet struct{}

func (s *Sheet) messages() []string { return nil }
