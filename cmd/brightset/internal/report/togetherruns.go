package report

import "strings"

// jobText is what is said of one job.
type jobText struct {
	job  int
	text string
}

// jobRuns lists what is said of jobs, three or more in a row with the same at once:
// "job 1 30.00, job 2 to job 9 each 20.00".
func jobRuns(list []jobText, name func(job int) string) string {
	var out []string
	for i := 0; i < len(list); {
		end := i + 1
		for end < len(list) && list[end].text == list[i].text && list[end].job == list[end-1].job+1 {
			end++
		}
		if end-i < 3 {
			end = i + 1
			out = append(out, name(list[i].job)+" "+list[i].text)
		} else {
			out = append(out, name(list[i].job)+" to "+name(list[end-1].job)+" each "+list[i].text)
		}
		i = end
	}
	return strings.Join(out, ", ")
}
