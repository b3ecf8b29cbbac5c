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

// TestKeyInAnotherTable: a key that has its place elsewhere is told where.
func TestKeyInAnotherTable(t *testing.T) {
	const job, shop = "[job]\ntitle = \"t\"\nshop = \"shop.toml\"\n", "[shop]\nhourly = \"40.00\"\n"
	for _, c := range []struct{ job, shop, says string }{
		{job + "misfit = 0.1\n", shop, "write it below [shop] of the shop's file"},
		{job + "paid = \"5.00\"\n", shop, "write it below [quote]"},
		{job + "tone_drift = 0.5\n", shop, "write it below [plater.NAME]"},
		{job + "[slot.a]\nweak = true\n", shop, "write it below [piece.NAME]"},
		{job + "[piece.a]\nfits = [\"a\"]\nkind = \"original\"\nmetal = \"brass\"\ntone_drift = 0.5\n[slot.a]\n", shop,
			"write it below [plater.NAME]"},
		{job + "[quote]\nkeep = \"5.00\"\n", shop, "write it below [job] or [slot.NAME]"},
		{job + "[slot.a]\n[slot.b]\n[match.m]\nslots = [\"a\", \"b\"]\ntone_drift = 0.5\n", shop,
			"write it below [plater.NAME]"},
		{job, shop + "plating = 0.1\n", "write it below [quote]"},
		{job, shop + "keep = \"5.00\"\n", "write it below [job] or [slot.NAME] of the job's file"},
		{job, shop + "[plater.p]\nmisfit = 0.1\n", "write it below [shop] of the shop's file"},
	} {
		_, err := loadFrom(map[string][]byte{"job.toml": []byte(c.job), "shop.toml": []byte(c.shop)})
		if err == nil || !strings.Contains(err.Error(), c.says+"\n") && !strings.HasSuffix(err.Error(), c.says) {
			t.Errorf("%q, %q: %v, want %q", c.job, c.shop, err, c.says)
		}
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

// TestDaysInReason: a slip in the year is told where it stands.
func TestDaysInReason(t *testing.T) {
	for day, fine := range map[string]bool{"1900-01-01": true, "2199-12-31": true, "1899-12-31": false,
		"2200-01-01": false, "0203-01-10": false} {
		_, err := loadFrom(map[string][]byte{"job.toml": []byte("[job]\ntitle = \"t\"\nstart = " + day + "\n")})
		if (err == nil) != fine || err != nil && !strings.Contains(err.Error(), "check the year") {
			t.Errorf("%s: %v", day, err)
		}
	}
}
