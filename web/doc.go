// Package web serves the local review page: what is missing, one paper with its
// question and its form, the standing, the claims, the audit, and the first steps.
//
// It calls the same functions of journal, intake and audit as the command line, so that
// the two cannot come to differ, and keeps no state of its own but pictures of pages.
// It listens on loopback only. Every address holds a secret that is made anew at each
// start; a request without it learns nothing. No document is ever served for display:
// pages are pictures made by us, originals are downloads.
package web
