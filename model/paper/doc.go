// Package paper takes from a plan what other people are told on paper: the Lots for
// platers, the Purchases, what is left over and whose it is, what the owner is quoted,
// and what the open standards say of the plating ordered.
package paper
