package parallel_test

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"sync/atomic"
	"testing"

	"brightset/model/parallel"
)

// processors sets how many there are, for the time of a test.
func processors(t *testing.T, n int) {
	was := runtime.GOMAXPROCS(n)
	t.Cleanup(func() { runtime.GOMAXPROCS(was) })
}

// TestDo: everything is done once, whatever is asked within it, and never by more at a
// time than there are processors but for those that asked.
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
		if err != nil || int(most.Load()) > n {
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
		if done.Add(1) == 10 {
			end()
		}
		return nil
	})
	if n := done.Load(); err != nil || n < 10 || n > 12 {
		t.Errorf("%d were done (%v)", n, err)
	}
}
