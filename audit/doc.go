// Package audit makes what is handed to an auditor and judges a vault as one
// would: the index that links every credit to the place in its proof, and verify.
//
// Everything it writes is reproducible: the same vault and the same day give the
// same bytes. It never changes the vault. Lengths are minutes, amounts exact.
package audit
