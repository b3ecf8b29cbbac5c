package catalog
import ("testing";"os";"time";"path/filepath")
func TestBig(t *testing.T){
 fs,_ := filepath.Glob("/tmp/big/*.toml")
 for _, f := range fs { st:=time.Now(); s, err := Load(f, Options{}); d:=time.Since(st); n:=0; if err!=nil { m:=err.(*Mistakes); n=len(m.List); msg:=m.Error(); if len(msg)>150 {msg=msg[:150]}; t.Log(filepath.Base(f), d, n, msg) } else { t.Log(f,d,len(s.Warnings)) }; _=os.Stdout}
}
