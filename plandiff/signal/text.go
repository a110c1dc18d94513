package signal

// The values go in and out of JSON, YAML and CSV as the text of the trade, through
// the same parsers. Where the zero value means "not given", it is the empty text,
// as in net/netip.

func unmarshal[T any](to *T, text []byte, parse func(string) (T, error)) error {
	value, err := parse(string(text))
	if err != nil {
		return err
	}
	*to = value
	return nil
}

func unmarshalOptional[T any](to *T, text []byte, parse func(string) (T, error)) error {
	if len(text) == 0 {
		*to = *new(T)
		return nil
	}
	return unmarshal(to, text, parse)
}

func marshalOptional[T comparable](value T, text string) ([]byte, error) {
	if value == *new(T) {
		return nil, nil
	}
	return []byte(text), nil
}
