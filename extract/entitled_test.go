package extract_test

import (
	"testing"

	"evidencevault/extract/paper"
)

// TestTitlesToldInWords: what a thing was called stands behind words that say so, or in the
// line beneath them.
func TestTitlesToldInWords(t *testing.T) {
	title := askedFor(paper.FieldTitle)
	checkAsked(t, []asked{
		title("under the name", "QUELM PUMP CIRCLE\nWe were asked how often Mr Ivor Pennyfeather attended our evenings, given this season under the name Bearings That Sing. He attended on 3 March 2026.\nQuelm, 12 March 2026", "Bearings That Sing"),
		title("unter dem Titel", "Pumpenkreis Ringau\n# Teilnahmebescheinigung\nHerr Jost Wendel hat am 3. März 2026 an unserem Abend teilgenommen, der unter dem Titel Lager, die singen stand.\nRingau, 12. März 2026", "Lager, die singen"),
		title("sous le titre", "CENTRE VANNELLE\n# ATTESTATION\nYsaline Trébuchon a participé le 3 mars 2026 à notre soirée, donnée sous le titre Paliers qui chantent.\nVannelle, le 12 mars 2026", "Paliers qui chantent"),
		title("bajo el título", "INSTITUTO DE QUELMO\n# CONSTANCIA\nHerminia Zavaleta Poot asistió el 3 de marzo de 2026 a nuestra velada, ofrecida bajo el título Cojinetes que cantan.\nQuelmo, 12 de marzo de 2026", "Cojinetes que cantan"),
		title("onder de titel", "Leerhuis Oostveld\n# BEWIJS\nSanne Brouwhuis nam op 3 maart 2026 deel aan onze avond, gegeven onder de titel Lagers die zingen.\nOostveld, 12 maart 2026", "Lagers die zingen"),
		title("the subject was", "QUELM SOCIETY OF ARCHITECTS\nMiss Orla Fennimore spent the whole of Thursday 12 February 2026 with us, where the day's subject was\n# Lime, Damp and Patience: Repairing Solid Walls\nWe began at 9.45 am and let everybody go at 4.30 pm.\nWritten at Quelm on 16 February 2026", "Lime, Damp and Patience: Repairing Solid Walls"),
		title("when it begins is no part of it", "Leerhuis Oostveld\n# FACTUUR 2026-019\nAan: mevrouw Sanne Brouwhuis\nMasterclass Oude akten lezen, aanvang 17 april 2026   € 100,00\n21% btw   € 21,00\nTotaal te betalen   € 121,00", "Masterclass Oude akten lezen"),
		title("a word of its own before the examination", "THE QUELM ROPE COMPANY\nDear Miss Fennimore,\nI thank you for acting as second examiner at the Practical Examination for Splicers, Grade Two, held in the loft from Monday 13 to Wednesday 15 April 2026. You examined nine candidates.\n22 April 2026", "Practical Examination for Splicers, Grade Two"),
	})
}

// TestKindsToldIndirectly: who spent the day with somebody was there; a paper that is no
// certificate for each of its courses is a record of them all the same; the list of a
// committee is that of a meeting.
func TestKindsToldIndirectly(t *testing.T) {
	kind := askedFor(paper.FieldKind)
	checkAsked(t, []asked{
		kind("spent the day", "QUELM SOCIETY OF ARCHITECTS\nStudy day, Thursday 12 February 2026\nMiss Orla Fennimore spent the whole of Thursday with us. The register shows that she was in her seat for all of it.\nWritten at Quelm on 16 February 2026", "attendance"),
		kind("evenings of one season", "QUELM PUMP CIRCLE\nWe were asked by Mr Ivor Pennyfeather how often he came to our four winter evenings.\nWed 5 November 2025   signed   What the ear can tell\nWed 3 December 2025   -   Cages\nWed 7 January 2026   signed   Shaft currents\nWed 4 February 2026   signed   The listening rod\nHe was therefore present on three evenings.\nQuelm, 12 February 2026", "attendance"),
		kind("no certificate for each", "Institut des tourneurs\n# Relevé individuel de formation\nMme Ysaline Trébuchon\nGlaçures sans plomb, 3 et 4 avril 2025, 14 h suivies sur 14 h\nEntretien du four, 12 juin 2025, 7 h suivies sur 7 h\nSécurité à l'atelier, 22 janvier 2026, 3 h suivies sur 7 h\nDurée suivie : 24 h\nRelevé arrêté à Vannelle le 2 juin 2026. Ce relevé ne vaut pas attestation pour chaque action.", "transcript"),
		kind("no certificate at all", "Institut des tourneurs\n# Programme\nGlaçures sans plomb, 3 avril 2027\nCe document ne vaut pas attestation.", "not-evidence"),
		kind("the list of a committee", "SIGN-IN SIGN-OUT\nQuelm Association of Welders - Safety Committee\nPlace: back room, Quelm   Date: 24 February 2026   Called for 6 PM\nPrint name   Time in   Time out\nIvor Pennyfeather   6:00   7:40\nOrla Fennimore   6:25   7:40\nCopy to: Orla Fennimore, who attended 75 minutes.\nAttested by the chair, Ivor Pennyfeather, 25 February 2026", "meeting"),
		kind("a course held by a committee", "Quelm Association of Welders - Training Committee\n# Certificate of Attendance\nOrla Fennimore attended the course Welding Basics on 24 February 2026.\nSigned by the chair, Ivor Pennyfeather, 25 February 2026", "attendance"),
	})
}
