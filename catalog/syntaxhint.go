package catalog

import (
	"regexp"
	"strings"
)

// plainSyntax rewords what the decoder says where only a programmer would
// understand it.
func plainSyntax(message string) string {
	switch {
	case strings.Contains(message, "already been defined"), strings.Contains(message, "already created as a hash"):
		return "this name is written further up already"
	case strings.Contains(message, "out of range for"):
		return "the number is too large"
	case strings.Contains(message, "control characters: '0x0d'"):
		return "the lines of this file end in CR alone, as of very old computers"
	case strings.Contains(message, "control characters"):
		return "there is an invisible control character here"
	}
	for _, one := range [][2]string{
		{"a top-level item to end with a newline, comment, or EOF", "the end of the line"},
		{"unexpected EOF;", "the file ends here;"},
		{"floats must", "a number has to"},
		{`'\x00'`, "the end of the file"},
		{"\x00", ""}, // what the decoder sees at the end of the file
	} {
		message = strings.ReplaceAll(message, one[0], one[1])
	}
	return harmless(message)
}

// usual is what usually lies behind a message of the decoder's: the hint for
// messages that contain a text, on lines of a certain look.
type usual struct {
	message string         // contained in it
	line    *regexp.Regexp // nil: any
	hint    string
}

var usuals = []usual{
	{"written further up", nil, "leave one of the two out, or rename it; a name is either a key with a value or a table"},
	{"too large", nil, "check the number, or write it in quotes if it is an id"},
	{"end in CR", nil, "save the file with LF or CR-LF line ends in your editor"},
	{"control character", nil, "delete it and type the text again"},
	{"invalid escape", regexp.MustCompile(`"([A-Za-z]:|\\)\\[^"]*\.toml"`), "write / for every backslash, as in " +
		"\"C:/shop/shop.toml\", or put the text in single quotes"},
	{"invalid escape", nil, `write \\ for a backslash, or put the text in single quotes`},
	{"", regexp.MustCompile(`^(<<<<<<<|=======|>>>>>>>)`), "a merge left its marks here: keep one of the two versions " +
		"and delete the marks"},
	{"", regexp.MustCompile("[“”„‘’«»]"), `write straight quotes: "..."`},
	{`\u00a0`, nil, "there is a no-break space here: type a plain space"},
	{"cannot contain newlines", nil, "put the closing quote at the end of the text, on the same line"},
	{`expected '"""'`, nil, `a text that begins with """ ends with """`},
	{`'''`, nil, `a text that begins with ''' ends with '''`},
	{`expected '"'`, nil, "put the closing quote at the end of the text, on the same line"},
	{"octal", nil, "write a plain number such as 12; words are written in quotes"},
	{"hexadecimal", nil, "write a plain number such as 12; words are written in quotes"},
	{"binary", nil, "write a plain number such as 12; words are written in quotes"},
	{"underscores", nil, "write the number without underscores"},
	{"has to start with a digit", nil, "write a digit before the point, as in 0.2"},
	{"", regexp.MustCompile(`=\s*\d{1,4}[./]\d{1,2}[./]\d{2,4}\b`), "write a date as year-month-day, such as " +
		"2027-01-10, without quotes"},
	{"found the end of the line", nil, "write the value after the =, or take the line out"},
	{"expected value but found", regexp.MustCompile(`(?i)=\s*(true|yes|on|false|no|off)\b`),
		"write true or false, in small letters and without quotes"},
	{"expected value but found", regexp.MustCompile(`=\s*[$€£¥₹]`),
		`money is written in quotes, without a sign, such as "240.00"`},
	{"expected value but found '='", nil, "write one = between a key and its value"},
	{"expected value but found", nil, `words are written in quotes, such as kind = "original"; numbers, true, false and ` +
		`dates are not`},
	{"but got ':'", nil, "write = between a key and its value"},
	{`expected '.' or '=', but got '"'`, nil, "write = between a key and its value"},
	{"but got '/'", nil, "a comment begins with #"},
	{"expected '.' or '='", regexp.MustCompile(`^\s*\{`),
		"a table begins with its name in square brackets, such as [job]"},
	{"expected '.' or '='", regexp.MustCompile(`^\s*\w+ \w+\s*=`), "a key has no spaces; two words are joined by _, " +
		"such as within_days"},
	{"expected '.' or '='", nil, `a line is either key = value or [table.name]; names with spaces are written in ` +
		`quotes, such as [metal."pot metal"]`},
	{"the end of the line, but got", regexp.MustCompile(`=\s*-?\d+,\d+`), "write decimals with a point, as in 0.2"},
	{"the end of the line, but got '%'", nil, "write a share from 0 to 1: 20 % is 0.2"},
	{"the end of the line, but got", regexp.MustCompile(`=\s*[\d.]+\s*\pL`), `a value with a unit is written in quotes, ` +
		`such as area = "3.2 dm2"`},
	{"the end of the line, but got", nil, "write one key = value on each line, and nothing after the value"},
	{"expected a comma", nil, "put a comma between the entries, and a ] after the last"},
	{"end table name, but got the end", nil, "put a ] after the name"},
	{"names cannot be empty", nil, "write a name between the brackets, such as [slot.left]"},
	{"end table name", nil, `names with spaces are written in quotes, such as [metal."pot metal"]`},
	{"appears blank", nil, "write a key before the ="},
	{"leading zero", nil, "write the number without leading zeros; ids and money are written in quotes"},
	{"date", nil, "write year-month-day with two digits for month and day, such as 2027-01-10"},
	{"", nil, "see the line marked, or the one above it"},
}

// syntaxHint gives the first hint that suits a message and its line.
func syntaxHint(message, line string) string {
	for _, u := range usuals {
		if strings.Contains(message, u.message) && (u.line == nil || u.line.MatchString(line)) {
			return u.hint
		}
	}
	return ""
}
