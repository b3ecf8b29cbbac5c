package catalog

import "testing"

func TestParseMoney(t *testing.T) {
	for s, want := range map[string]Cents{"0": 0, "240": 24000, "240.00": 24000, "1240.50": 124050, "0.01": 1, "007": 700,
		"1000000000.00": MaxMoney} {
		if got, err := ParseMoney(s); err != nil || got != want {
			t.Errorf("%q: got %d, %v, want %d", s, got, err, want)
		}
	}
	for s, want := range map[string]string{
		"1,240":                      `"1,240" has a comma, which some read as a decimal point; write "1240.00" or "1.24"`,
		"1,234.50":                   `"1,234.50" has a comma, which some read as a decimal point; write "1234.50"`,
		"1.234,50":                   `"1.234,50" has a comma, which some read as a decimal point; write "1234.50"`,
		"240,50":                     `"240,50" has a comma, which some read as a decimal point; write "240.50"`,
		"1.240":                      `"1.240" doesn't have two decimals; write "1240.00" or "1.24"`,
		"240.5":                      `"240.5" doesn't have two decimals; write "240.50"`,
		"240.":                       `"240." doesn't have two decimals; write "240.00"`,
		".50":                        `".50" doesn't have two decimals; write "50.00"`,
		"1 240":                      `"1 240" has a space in it; write "1240.00"`,
		" 240":                       `" 240" has a space in it; write "240.00"`,
		"-5":                         `"-5" is negative; write "5.00"`,
		"$240":                       `"$240" is more than a number; write "240.00"`,
		"240 EUR":                    `"240 EUR" is more than a number; write "240.00"`,
		"+5":                         `"+5" has a sign; write "5.00"`,
		"1e3":                        `"1e3" is more than a number; write an amount such as "240.00"`,
		"":                           `this is empty; write "0.00" or leave the key out`,
		"x":                          `"x" is more than a number; write an amount such as "240.00"`,
		"٣":                          `"٣" is no plain amount of money; write an amount such as "240.00"`,
		"1000000000.01":              `"1000000000.01" is more than 1000000000.00; write a smaller amount`,
		"99999999999999999999999999": `"99999999999999999999999999" is more than 1000000000.00; write a smaller amount`,
	} {
		if _, err := ParseMoney(s); err == nil || err.Error() != want {
			t.Errorf("%q: got %v, want %s", s, err, want)
		}
	}
}

func TestFormatMoney(t *testing.T) {
	for c, want := range map[Cents]string{0: "0.00", 5: "0.05", 124050: "1240.50", -3000: "-30.00", -1: "-0.01"} {
		if got := FormatMoney(c); got != want {
			t.Errorf("%d: got %q, want %q", c, got, want)
		}
	}
}

func TestParseArea(t *testing.T) {
	for s, want := range map[string]Micro{
		"3.2 dm2": 3_200_000, "50 in2": 3_225_800, "1 in2": 64_516, "1ft2": 9_290_304, "320 cm2": 3_200_000,
		"1 mm2": 100, "1 m2": 100_000_000, "3.2 dm²": 3_200_000, " 2 DM2 ": 2_000_000,
		"0.0000015 dm2": 2, "0.005 mm2": 1, "100 m2": MaxArea,
	} {
		if got, err := ParseArea(s); err != nil || got != want {
			t.Errorf("%q: got %d, %v, want %d", s, got, err, want)
		}
	}
	for s, want := range map[string]string{
		"3.2":       `"3.2" has no unit; write "3.2 dm2" or "3.2 in2"`,
		"":          `"" has no unit; write "3.2 dm2" or "50 in2"`,
		"3,2 dm2":   `"3,2 dm2" is no area; write "3.2 dm2"`,
		"1,240 cm2": `"1,240 cm2" is no area; write "1.240 cm2" or "1240 cm2"`,
		"-1 dm2":    `"-1 dm2" is no area; write "3.2 dm2" or "50 in2", with a point for decimals`,
		"dm2":       `"dm2" is no area; write "3.2 dm2" or "50 in2", with a point for decimals`,
		"1. dm2":    `"1. dm2" is no area; write "3.2 dm2" or "50 in2", with a point for decimals`,
		"5 sqin":    `unknown unit of area "sqin"; write "5 in2", square inches`,
		"0 dm2":     `an area can't be zero; write the area that is seen, or leave the key out`,
		"101 m2":    `"101 m2" is more than 10000 dm2; check the unit`,
		"1e3 dm2":   `unknown unit of area "e3 dm2"; write one of "dm2", "in2", "cm2", "ft2", "mm2", "m2"`,
		"5 in2 x2":  `unknown unit of area "in2 x2"; multiply the two sides and write the area, such as "12 in2"`,
	} {
		if _, err := ParseArea(s); err == nil || err.Error() != want {
			t.Errorf("%q: got %v, want %s", s, err, want)
		}
	}
}

func TestParseOthers(t *testing.T) {
	tables := BuiltIn()
	grade := func(s string) (int64, error) { c, err := ParseGrade(s, &tables); return int64(c), err }
	tone := func(s string) (int64, error) { c, err := ParseTone(s, &tables); return int64(c), err }
	for _, c := range []struct {
		kind  string
		parse func(string) (int64, error)
		s     string
		want  int64
		err   string
	}{
		{"grade", grade, "62", 6200, ""},
		{"grade", grade, "62.5", 6250, ""},
		{"grade", grade, "nice", 7500, ""},
		{"grade", grade, "nise", 0, `unknown grade "nise"; did you mean "nice"?`},
		{"grade", grade, "101", 0, "101 is not between 0 and 100; write a number from 0 to 100"},
		{"tone", tone, "-0.4", -40, ""},
		{"tone", tone, "yellow", 680, ""},
		{"tone", tone, "yelow", 0, `unknown tone "yelow"; did you mean "yellow"?`},
	} {
		got, err := c.parse(c.s)
		if said := ""; err != nil {
			said = err.Error()
			if said != c.err {
				t.Errorf("%s %q: error %q, want %q", c.kind, c.s, said, c.err)
			}
		} else if c.err != "" || got != c.want {
			t.Errorf("%s %q: got %d, want %d %s", c.kind, c.s, got, c.want, c.err)
		}
	}
}

func TestFormatDecimals(t *testing.T) {
	for m, want := range map[Micro]string{0: "0", 1: "0.000001", 50_000: "0.05", 3_200_000: "3.2", One: "1",
		-500_000: "-0.5"} {
		if got := FormatMicro(m); got != want {
			t.Errorf("%d: got %q, want %q", m, got, want)
		}
	}
	for c, want := range map[Centi]string{6200: "62", 6250: "62.5", -40: "-0.4"} {
		if got := FormatCenti(c); got != want {
			t.Errorf("%d: got %q, want %q", c, got, want)
		}
	}
	if got := FormatArea(3_225_800); got != "3.2258 dm2" {
		t.Errorf("got %q", got)
	}
}
