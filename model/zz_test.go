package model
import ("testing";"fmt";"time";"context";"brightset/model/seeded";"brightset/solver";"os")
func TestZ(t *testing.T){
 for _,f:=range seeded.Families {
  if n:=os.Getenv("FAM"); n!="" && n!=f.Name {continue}
  for seed:=uint64(1);seed<=3;seed++ {
  st:=seeded.Job(f,seed)
  t0:=time.Now()
  p:=Build(st)
  t1:=time.Now()
  n:=0; for _,g:=range p.Problem.Groups{n+=len(g.Columns)}
  s,err:=solver.New(p.Problem)
  if err!=nil{t.Fatal(err)}
  r,err:=s.Solve(context.Background(),solver.Change{},solver.Settings{TimeLimit:20*time.Second})
  if w:=os.Getenv("MPS");w!=""{fh,_:=os.Create(fmt.Sprintf("%s/%s-%d.mps",w,f.Name,seed));p.Problem.WriteMPS(fh);fh.Close()}
  fmt.Println(f.Name,seed,"pieces",len(st.Pieces),"cols",n,"rows",len(p.Problem.Rows),"sw",len(p.Problem.Switches),"build",t1.Sub(t0),r.Status,r.Stop,r.Total,r.Bound,r.Nodes,r.LPs,r.Time,err)
 }}
}
