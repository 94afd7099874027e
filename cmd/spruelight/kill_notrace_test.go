//go:build !linux || !amd64

package main

// killAt is for Linux on amd64.
func killAt() int { return 3 }
