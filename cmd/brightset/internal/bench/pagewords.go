package bench

import (
	"regexp"
	"strings"
)

// What refuses an act says what to type instead. At the page nothing is typed: the same is said by the button
// that does it, or the field that is to be filled in.

var (
	command = regexp.MustCompile(`(?:type: )?brightset record ([a-z]+)[^;]*`)
	example = regexp.MustCompile(`, such as --[a-z-]+ [^;,]*`)
	option  = regexp.MustCompile(`--([a-z][a-z-]*)`)
)

// buttons are what the page calls the acts that a refusal may name.
var buttons = map[string]string{
	"undo": "Undo", "back": "It came back", "sent": "It was sent", "unhung": "It was taken down again",
	"hung": "It hangs here", "approved": "Told to go ahead", "bought": "It was bought", "lost": "It is lost",
	"fitted": "Tried on: it fits here", "quoted": "Keep the price", "bundle": "Add a bundle",
	"priced": "Keep the price",
}

// optionWords are what the page calls the options whose own names say little.
var optionWords = map[string]string{"to": "the plater", "cost": "the price", "what": "what is done", "on": "the day"}

// atPage says a refusal in the words of the page.
func atPage(text string) string {
	text = example.ReplaceAllString(text, "")
	text = command.ReplaceAllStringFunc(text, func(s string) string {
		name := command.FindStringSubmatch(s)[1]
		if b := buttons[name]; b != "" {
			return "press “" + b + "”"
		}
		return "press the button for “" + name + "”"
	})
	return option.ReplaceAllStringFunc(text, func(s string) string {
		name := strings.TrimPrefix(s, "--")
		if f := optionWords[name]; f != "" {
			return f
		}
		return strings.ReplaceAll(name, "-", " ")
	})
}
