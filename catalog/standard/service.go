package standard

import (
	"fmt"
	"strings"
)

// Service is how hard the use is: the service condition, 1 mild to 5 extended severe, as
// ASTM B456 counts it (five of them: clause 1.1). 0 is none given.
type Service int

// ServiceWords are the words for the conditions 1 to 5, and what each means. Words and
// meanings: ASTM B456, from memory.
var ServiceWords = []struct{ Word, Means string }{
	{"mild", "indoors, warm and dry"},
	{"moderate", "indoors, where damp condenses"},
	{"severe", "outdoors, now and then wet by rain or dew"},
	{"very severe", "outdoors, likely damage by dents, scratches and salt"},
	{"extended severe", "outdoors as before, for a long life"},
}

// String writes the condition with its word: "SC3, severe".
func (s Service) String() string {
	if s < 1 || int(s) > len(ServiceWords) {
		return fmt.Sprintf("SC%d", int(s))
	}
	return fmt.Sprintf("SC%d, %s", int(s), ServiceWords[s-1].Word)
}

// Means says in words what the condition is; "" for none.
func (s Service) Means() string {
	if s < 1 || int(s) > len(ServiceWords) {
		return ""
	}
	return ServiceWords[s-1].Means
}

// ParseService reads a word of the standard, or SC1 to SC5.
func ParseService(s string) (Service, bool) {
	for i, w := range ServiceWords {
		if s == w.Word || strings.EqualFold(s, fmt.Sprintf("SC%d", i+1)) {
			return Service(i + 1), true
		}
	}
	return 0, false
}
