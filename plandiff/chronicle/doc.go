// Package chronicle tells the history of a plan in the words of the trade.
package chronicle
