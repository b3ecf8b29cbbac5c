package sheet

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"unicode/utf16"
	"unicode/utf8"
)

// MostBytes is the largest file that is read.
const MostBytes = 16 << 20

const asUTF8 = "save the table as CSV, UTF-8"

// decode makes UTF-8 of a file. Bytes that are no text stay in it, so that the
// cell they are in can be named.
func decode(data []byte) (string, *Problem) {
	if len(data) > MostBytes {
		return "", tooLarge()
	}
	for _, wide := range []struct {
		mark  string
		order binary.ByteOrder
	}{{"\xff\xfe", binary.LittleEndian}, {"\xfe\xff", binary.BigEndian}} {
		if rest, ok := bytes.CutPrefix(data, []byte(wide.mark)); ok {
			if len(rest)%2 != 0 {
				return "", &Problem{Message: "the file ends in the middle of a character", Hint: asUTF8}
			}
			return narrow(rest, wide.order), nil
		}
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	if n := bytes.Count(data, []byte{0}); n > 1 && n > len(data)/4 {
		return "", &Problem{Message: "every other byte is a NUL: the file looks like UTF-16 without its mark", Hint: asUTF8}
	}
	return string(data), nil
}

func tooLarge() *Problem {
	return &Problem{Message: fmt.Sprintf("the file is larger than %d MiB", MostBytes>>20), Hint: "split it"}
}

// narrow makes UTF-8 of UTF-16; half a pair becomes a byte that is no UTF-8.
func narrow(data []byte, order binary.ByteOrder) string {
	out := make([]byte, 0, len(data))
	for len(data) > 0 {
		r := rune(order.Uint16(data))
		data = data[2:]
		if utf16.IsSurrogate(r) {
			pair := utf8.RuneError
			if len(data) > 0 {
				pair = utf16.DecodeRune(r, rune(order.Uint16(data)))
			}
			if pair == utf8.RuneError {
				out = append(out, 0xff)
				continue
			}
			r, data = pair, data[2:]
		}
		out = utf8.AppendRune(out, r)
	}
	return string(out)
}
