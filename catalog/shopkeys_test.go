package catalog

import (
	"strings"
	"testing"
)

// TestShopOnPaper: who the shop is to others, and how far a plater may go without a call: 15
// in 100 where nothing else is said.
func TestShopOnPaper(t *testing.T) {
	st, err := loadWithShop(t, `[shop]
name = "A"
address = "B"
phone = "C"
contact = "D"
call_above = 0.2
`)
	if err != nil {
		t.Fatal(err)
	}
	if s := &st.Shop; s.Name+s.Address+s.Phone+s.Contact != "ABCD" || s.CallAbove != 200_000 {
		t.Errorf("%+v", s)
	}
	if st, err = loadWithShop(t, "[shop]\n"); err != nil || st.Shop.CallAbove != 150_000 {
		t.Error(st, err)
	}
	if _, err = loadWithShop(t, "[shop]\ncall_above = 15\n"); err == nil || !strings.Contains(err.Error(), "from 0 to 1") {
		t.Error(err)
	}
}

// TestAreaAsWritten: what the user wrote is what the sheets say.
func TestAreaAsWritten(t *testing.T) {
	for written, dm2 := range map[string]Micro{"50 in2": 3_225_800, " 3.2 dm2": 3_200_000} {
		st, err := loadFrom(map[string][]byte{
			"job.toml": []byte("[job]\ntitle = \"t\"\n[slot.a]\narea = \"" + written + "\"\n"),
		})
		if err != nil {
			t.Fatal(err)
		}
		if s := st.Slots[0]; s.Area.V != dm2 || s.AreaWritten != strings.TrimSpace(written) {
			t.Errorf("%q: %+v", written, s)
		}
	}
}
