package parallel_test

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"sync/atomic"
	"testing"
	"time"

	"brightset/solver/parallel"
)

// processors sets how many there are, for the time of a test.
func processors(t *testing.T, n int) {
	was := runtime.GOMAXPROCS(n)
	t.Cleanup(func() { runtime.GOMAXPROCS(was) })
}

// TestDo: everything is done once, whatever is asked within it, and by hardly more at a time
// than there are processors: who has waited for helpers goes on at once, and one of those
// that came instead ends when he is through with what he does.
func TestDo(t *testing.T) {
	for _, n := range []int{1, 2, 8} {
		processors(t, n)
		var done [20][30]atomic.Int32
		var now, most atomic.Int32
		err := parallel.Do(context.Background(), 20, func(i int) error {
			return parallel.Do(context.Background(), 30, func(k int) error {
				if v := now.Add(1); v > most.Load() {
					most.Store(v)
				}
				runtime.Gosched()
				done[i][k].Add(1)
				now.Add(-1)
				return nil
			})
		})
		if err != nil || int(most.Load()) > 2*n-1 {
			t.Errorf("%d processors: %d at a time (%v)", n, most.Load(), err)
		}
		for i := range done {
			for k := range done[i] {
				if v := done[i][k].Load(); v != 1 {
					t.Fatalf("%d of %d was done %d times", k, i, v)
				}
			}
		}
	}
}

// TestDoFails: the error, or panic, is that of the first that fails by number.
func TestDoFails(t *testing.T) {
	for _, n := range []int{1, 2, 8} {
		processors(t, n)
		for range 50 {
			err := parallel.Do(context.Background(), 40, func(i int) error {
				if i%7 == 5 {
					return fmt.Errorf("%d fails", i)
				}
				return nil
			})
			if err == nil || err.Error() != "5 fails" {
				t.Fatalf("%d processors: %v", n, err)
			}
			func() {
				defer func() {
					if p := recover(); p != "5 breaks" {
						t.Fatalf("%d processors: the panic is %v", n, p)
					}
				}()
				_ = parallel.Do(context.Background(), 40, func(i int) error {
					if i%7 == 5 {
						panic(fmt.Sprintf("%d breaks", i))
					}
					if i == 20 {
						return errors.New("later")
					}
					return nil
				})
			}()
		}
	}
}

// TestDoEnds: where the context ends nothing more is begun.
func TestDoEnds(t *testing.T) {
	processors(t, 2)
	ctx, end := context.WithCancel(context.Background())
	var done atomic.Int32
	err := parallel.Do(ctx, 1000, func(i int) error {
		switch n := done.Add(1); {
		case n == 10:
			end()
		case n > 10:
			<-ctx.Done()
		}
		return nil
	})
	if n := done.Load(); err != nil || n < 10 || n > 12 {
		t.Errorf("%d were done (%v)", n, err)
	}
}

// TestDoStops: once one has failed, or broken, none is begun any more.
func TestDoStops(t *testing.T) {
	processors(t, 1)
	for name, fail := range map[string]func() error{
		"fails":  func() error { return errors.New("failed") },
		"breaks": func() error { panic("broken") },
	} {
		done := 0
		func() {
			defer func() { _ = recover() }()
			_ = parallel.Do(context.Background(), 1000, func(i int) error {
				if done++; i == 5 {
					return fail()
				}
				return nil
			})
		}()
		if done != 6 {
			t.Errorf("the sixth %s: %d were begun", name, done)
		}
	}
}

// TestDoGivesBack: help that was had once is to be had again, however it came to its end:
// two things that wait for each other come to theirs.
func TestDoGivesBack(t *testing.T) {
	processors(t, 2)
	ended, end := context.WithCancel(context.Background())
	end()
	for _, before := range []func() error{
		func() error { return nil },
		func() error { return errors.New("failed") },
		func() error { panic("broken") },
	} {
		func() {
			defer func() { _ = recover() }()
			_ = parallel.Do(context.Background(), 10, func(int) error { return before() })
		}()
		_ = parallel.Do(ended, 10, func(int) error { return nil })
		begun := [2]chan struct{}{make(chan struct{}), make(chan struct{})}
		err := parallel.Do(context.Background(), 2, func(i int) error {
			close(begun[i])
			select {
			case <-begun[1-i]:
				return nil
			case <-time.After(20 * time.Second):
				return errors.New("nobody else came")
			}
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}

// TestAtMost: never more at a time than is said, and one where that is less.
func TestAtMost(t *testing.T) {
	processors(t, 8)
	for _, most := range []int{-1, 0, 1, 2, 3} {
		var now, largest, done atomic.Int32
		err := parallel.AtMost(context.Background(), most, 200, func(int) error {
			if v := now.Add(1); v > largest.Load() {
				largest.Store(v)
			}
			runtime.Gosched()
			done.Add(1)
			now.Add(-1)
			return nil
		})
		if n := int(largest.Load()); err != nil || n > max(most, 1) || done.Load() != 200 {
			t.Errorf("at most %d: %d at a time, %d done (%v)", most, n, done.Load(), err)
		}
	}
}

// TestDoRecruits: help that gets free while something is being done is taken on then, not
// only where it was free at the start.
func TestDoRecruits(t *testing.T) {
	processors(t, 2)
	var within, first atomic.Bool
	together := make(chan struct{}, 1)
	err := parallel.Do(context.Background(), 2, func(i int) error {
		if i == 0 {
			for !within.Load() {
				runtime.Gosched()
			}
			first.Store(true) // from now on nobody needs the help that this one takes
			return nil
		}
		var now atomic.Int32
		return parallel.Do(context.Background(), 2000, func(int) error {
			within.Store(true)
			for !first.Load() {
				runtime.Gosched()
			}
			if now.Add(1) > 1 {
				select {
				case together <- struct{}{}:
				default:
				}
			}
			time.Sleep(100 * time.Microsecond)
			now.Add(-1)
			return nil
		})
	})
	if err != nil || len(together) == 0 {
		t.Errorf("one after the other (%v)", err)
	}
}
