// Package tables lays answers out: tables, facts, notes and series, in words of
// package words. It works nothing out.
package tables
