// Package space is exact set algebra over configurations.
package space
