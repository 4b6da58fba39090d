package extract_test

import (
	"strings"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// papersByKind are short papers of every kind as they are written every day, with what each is called;
// "" stands for no title.
var papersByKind = []struct {
	kind    paper.Kind
	title   string
	certain bool
	text    string
}{
	{paper.Receipt, "Crane Signals Refresher", true, "Tannvale Training Trust\nInvoice 2044\nDate: 3 May 2026\nBill to: Mona Arkell\n1 place on Crane Signals Refresher, 14 May 2026   £180.00\nVAT 20 %   £36.00\nTotal   £216.00"},
	{paper.Receipt, "Crane Signals Refresher", true, "Tannvale Training Trust\nReceipt\nReceived from Mona Arkell the sum of £180.00 in payment for the course Crane Signals Refresher (14 May 2026).\nDate 3 May 2026"},
	{paper.Receipt, "Rigging Handbook, 4th edition", false, "Plumbline Books Ltd\nSales receipt 118\n3 May 2026\nRigging Handbook, 4th edition   £42.00\nPostage   £3.50\nTotal paid   £45.50"},
	{paper.Receipt, "", false, "Plumbline Books Ltd\nSales receipt 119\n3 May 2026\nRigging Handbook   £42.00\nSteel Tables   £28.00\nTotal paid   £70.00"},
	{paper.Receipt, "Grundkurs Anschlagen", false, "Bildungswerk Tannau e. V.\nRechnung Nr. 2026-118\nTannau, 3. Mai 2026\nFrau Mona Arkell\nTeilnahmegebühr Grundkurs Anschlagen am 14.05.2026   240,00 EUR\nGesamtbetrag   240,00 EUR"},
	{paper.Receipt, "Grundkurs Anschlagen", false, "Bildungswerk Tannau e. V.\nQuittung\n180,00 EUR von Mona Arkell\nfür: Grundkurs Anschlagen\ndankend erhalten\nTannau, 3. Mai 2026"},
	{paper.Receipt, "Contrôle des câbles en service", true, "Institut Tannval de formation\nFacture n° 118\nLe 3 mai 2026\nMme Mona Arkell\n« Contrôle des câbles en service », 14 mai 2026   300,00 €\nTotal TTC   300,00 €"},
	{paper.Receipt, "Inspección de cables de acero", true, "Instituto Tanval de Formación\nFactura n.º 118\nFecha: 3 de mayo de 2026\nCliente: Mona Arkell\nConcepto: Matrícula curso Inspección de cables de acero (14 de mayo de 2026)\nTotal: 240,00 €"},
	{paper.Receipt, "Staalkabels keuren", false, "Instituut Tanveld Opleidingen\nFactuur 118\n3 mei 2026\nMona Arkell\nCursus Staalkabels keuren (14 mei 2026)   € 240,00\nTotaal   € 240,00"},
	{paper.Receipt, "Level 2 Lifting Examination", false, "Tannvale Board of Examiners\nPayment confirmation\nExamination fee: Level 2 Lifting Examination\nCandidate: Mona Arkell\nAmount: £95.00\nPaid on 3 May 2026"},
	{paper.Receipt, "Tannvale Lifting Symposium 2026", false, "Dear Mona Arkell,\nthank you for your order.\nOrder no. 7781, 3 May 2026\n1 × Early-bird ticket: Tannvale Lifting Symposium 2026 – £150.00\nTotal £150.00\nTannvale Lifting Society Ltd"},
	{paper.Meeting, "Technical Committee Lifting Gear", true, "Tannvale Lifting Society\nMinutes of the meeting of the Technical Committee Lifting Gear\nheld on 14 May 2026, 10:00 to 12:30\nPresent: Mona Arkell, Paul Whitmore, Ines Sorle\nApologies: Tom Breck\n1. Minutes of the last meeting\n2. Draft standard\n3. Any other business"},
	{paper.Meeting, "Monthly Branch Meeting", false, "Tannvale Lifting Society\nThis confirms that Mona Arkell attended the Monthly Branch Meeting on 14 May 2026, 18:30–20:00. Talk of the evening: Ropes at Sea.\nIssued 20 May 2026"},
	{paper.Meeting, "Commission technique Levage", false, "Société tannvaloise du levage\nCompte rendu de la réunion de la Commission technique Levage du 14 mai 2026\nPrésents : Mona Arkell, Paul Vautier\nExcusé : Luc Bress\nOuverture 10 h 00, clôture 12 h 00"},
	{paper.Meeting, "Asamblea anual", false, "Sociedad Tanval de Inspectores\nCertificamos que Mona Arkell asistió a la Asamblea anual celebrada el 14 de mayo de 2026, de 18:00 a 20:00.\nTanval, 20 de mayo de 2026"},
	{paper.Meeting, "Werkgroep Hijsmiddelen", true, "Genootschap Tanveld\nVerslag van de Werkgroep Hijsmiddelen, 14 mei 2026, 14.00–16.00 uur\nAanwezig: Mona Arkell, Piet Vos\nAfwezig met kennisgeving: Jan Blok"},
	{paper.Meeting, "Regulars’ Evening of Inspectors", false, "Tannvale Lifting Society\nProof of attendance\nName: Mona Arkell\nMeeting: Regulars’ Evening of Inspectors\nDate: 14 May 2026\nTime: 19:00–21:00"},
	{paper.Membership, "Fellow", true, "Tannvale Lifting Society\nMembership certificate\nMona Arkell is a Fellow of the Society.\nValid 1 January 2026 to 31 December 2026"},
	{paper.Membership, "Associate Member", false, "Tannvale Lifting Society\nMembership card\nMona Arkell\nAssociate Member\nMember no. 4471\nValid until 31 December 2026"},
	{paper.Membership, "ordentliches Mitglied", true, "Verband Tannauer Prüfer e. V.\nMitgliedsbescheinigung\nFrau Mona Arkell ist seit 1. Januar 2021 ordentliches Mitglied unseres Verbandes.\nTannau, 20. Mai 2026"},
	{paper.Membership, "Membre titulaire", true, "Société tannvaloise du levage\nAttestation d’adhésion 2026\nMona Arkell\nMembre titulaire\nCotisation 2026 : 80,00 € réglée\nLe 20 mai 2026"},
	{paper.Employment, "Senior Lifting Inspector", true, "Harrow Hoists Ltd\n20 May 2026\nTo whom it may concern\nMona Arkell has been employed by Harrow Hoists Ltd since 1 March 2021 as Senior Lifting Inspector."},
	{paper.Employment, "Rigging Supervisor", true, "Harrow Hoists Ltd\nCertificate of employment\nName: Mona Arkell\nPosition: Rigging Supervisor\nFrom: 1 March 2019\nTo: 28 February 2026\nIssued 20 May 2026"},
	{paper.Employment, "Prüfingenieurin", false, "Hebezeug Harrau GmbH\nArbeitszeugnis\nFrau Mona Arkell war vom 1. März 2019 bis zum 28. Februar 2026 als Prüfingenieurin in unserem Unternehmen tätig.\nHarrau, 28. Februar 2026"},
	{paper.Employment, "Responsable levage", true, "Levage Harrau SARL\nAttestation de travail\nMme Mona Arkell est employée dans notre société depuis le 1er mars 2021 en qualité de Responsable levage.\nFait le 20 mai 2026"},
	{paper.Employment, "Inspectora de grúas", true, "Grúas Harro S.L.\nCertificado laboral\nMona Arkell presta servicios en esta empresa desde el 1 de marzo de 2021 como Inspectora de grúas.\nTanval, 20 de mayo de 2026"},
	{paper.Instruction, "Basics of Slinging", true, "Tannvale Training Trust\nThis is to confirm that Mona Arkell taught the course Basics of Slinging on 14 and 15 May 2026 (12 hours).\nIssued 20 May 2026"},
	{paper.Instruction, "Why Hooks Open", true, "Tannvale Lifting Society\nDear Ms Arkell,\nthank you for your lecture “Why Hooks Open” at our spring meeting on 14 May 2026 (45 minutes).\n20 May 2026"},
	{paper.Instruction, "Grundlagen des Anschlagens", true, "Bildungswerk Tannau e. V.\nBestätigung der Dozententätigkeit\nFrau Mona Arkell hat als Dozentin den Kurs „Grundlagen des Anschlagens“ am 14. Mai 2026 (6 Zeitstunden) geleitet.\nTannau, 20. Mai 2026"},
	{paper.Instruction, "Les crochets de levage", true, "Institut Tannval de formation\nAttestation d’intervention\nMme Mona Arkell est intervenue comme formatrice dans la session « Les crochets de levage » le 14 mai 2026 (3 heures).\nFait le 20 mai 2026"},
	{paper.Instruction, "Rope Inspection for Beginners", true, "Tannvale Training Trust\nTeaching statement\nLecturer: Mona Arkell\nCourse: Rope Inspection for Beginners\nDate: 14 May 2026\nHours taught: 6"},
	{paper.Publication, "Fatigue of Shackles under Side Load", true, "Tannvale Journal of Lifting\nDear Ms Arkell,\nwe are pleased to accept your article “Fatigue of Shackles under Side Load” for publication. Accepted 14 May 2026.\nThe editors"},
	{paper.Publication, "Ermüdung von Schäkeln", true, "Zeitschrift für Hebetechnik\nAutorenbestätigung\nDer Beitrag „Ermüdung von Schäkeln“ von Mona Arkell ist in Heft 2/2026 erschienen.\nErscheinungsdatum: 14. Mai 2026"},
	{paper.Credential, "Certified Lifting Inspector, Level 2", false, "Tannvale Board of Examiners\nhereby certifies that\nMona Arkell\nhas passed the examination and is entitled to use the title\nCertified Lifting Inspector, Level 2\nExamination date: 14 May 2026\nIssued 20 May 2026"},
	{paper.Credential, "Rigger, Grade 3", true, "Tannvale Board of Examiners\nResult of examination\nCandidate: Mona Arkell\nExamination: Rigger, Grade 3\nDate: 14 May 2026\nResult: Pass (82 %)\nIssued 20 May 2026"},
	{paper.Credential, "Inspectrice de levage niveau II", false, "Office tannvalois de certification\nCertificat\nNous certifions que Mme Mona Arkell a obtenu la qualification\nInspectrice de levage niveau II\nÀ l’issue de l’examen du 14 mai 2026\nDélivré le 20 mai 2026"},
	{paper.Completion, "Manual Handling Basics", true, "Tannvale Online Academy\nCertificate of Completion\nMona Arkell completed the self-paced course Manual Handling Basics\non 14 May 2026\nEstimated study time: 3 hours"},
	{paper.Completion, "Hijsen voor beginners", false, "Tanveld Online\nBewijs van voltooiing\nMona Arkell heeft de e-learning Hijsen voor beginners afgerond op 14 mei 2026.\nStudieduur: 3 uur"},
	{paper.Completion, "Recherches récentes sur les élingues", false, "Revue tannvaloise du levage\nAttestation de lecture\nMona Arkell a répondu au questionnaire de l’article « Recherches récentes sur les élingues »\nle 14 mai 2026 : 9/10\n1 point"},
	{paper.Transcript, "", false, "Tannvale Training Trust\nTraining record of Mona Arkell\nDate   Course   Hours\n14 Jan 2026   Slings   6\n20 Feb 2026   Hooks   3\n5 Mar 2026   Ropes   6\nTotal   15\nIssued 20 May 2026"},
	{paper.Attendance, "Cranes of the Future", true, "Tannvale Lifting Society\nSpring Symposium 2026\nTheme: Cranes of the Future\nThis certifies that Mona Arkell attended the symposium on 14 and 15 May 2026.\nIssued 20 May 2026"},
	{paper.Attendance, "Krane der Zukunft", true, "Verband Tannauer Prüfer e. V.\nTeilnahmebestätigung\nMona Arkell\nRingvorlesung „Krane der Zukunft“\nfünf Abende, 14. April bis 12. Mai 2026\nTannau, 20. Mai 2026"},
	{paper.Attendance, "Workshop on Load Charts", true, "Tannvale Training Trust\nI hereby confirm the participation of Mona Arkell in the\nWorkshop on Load Charts\n(Reg. no. 118/2026)\nTannvale, 14 May 2026, 9 a.m. to 4 p.m.\nP. Whitmore, Course Director"},
	{paper.Attendance, "Safe Lifting, Day 2", true, "Tannvale Training Trust\nCertificate of attendance\nMona Arkell\nattended\nSafe Lifting, Day 2\non 15 May 2026 (6 h)\nIssued 20 May 2026"},
	{paper.Attendance, "TALLER DE ESLINGADO SEGURO", true, "Instituto Tanval de Formación\nSe hace constar que\nMONA ARKELL\nha participado en el\nTALLER DE ESLINGADO SEGURO\nimpartido el 14 de mayo de 2026, con una duración de 6 horas.\nTanval, 20 de mayo de 2026"},
	{paper.Attendance, "L’élingage en sécurité", false, "Institut Tannval de formation\nFeuille d’émargement\nFormation : L’élingage en sécurité\nDate : 14 mai 2026\nHoraires : 9 h 00 – 12 h 00 / 13 h 30 – 17 h 00\nStagiaire : Mona Arkell    Signature : M. Arkell"},
}

// TestBrokenLines sets papers with wider margins and larger letters, so that their lines break elsewhere:
// what is certain stays what it was.
func TestBrokenLines(t *testing.T) {
	certain, other := 0, 0
	texts := []string{"Tannvale Training Trust\n# Confirmation of attendance\nParticipant: Mona Arkell\nCourse: Band Weaving\nMornings attended: ☒ Mon 4 May 2026 ☒ Tue 5 May 2026 ☐ Wed 6 May 2026 ☒ Thu 7 May 2026\nEach morning from: 09:30\nTo: 12:30\nDate signed: 11 May 2026"}
	for _, c := range papersByKind {
		texts = append(texts, c.text)
	}
	for _, text := range texts {
		p := invented{lines: strings.Split(text, "\n")}
		as := extract.Understand(p.asPage(), extract.Hints{})[0].Values
		for _, set := range [][2]int{{9000, 1100}, {11000, 1100}, {13000, 1100}, {15000, 1100}, {5000, 1400}, {16000, 1000}} {
			for f, v := range extract.Understand(p.within(set[0], set[1]), extract.Hints{})[0].Values {
				if !v.Certain || !as[f].Certain {
					continue
				}
				if certain++; v.Text != as[f].Text {
					other++
					t.Logf("margin %d, letters %d: %s is %q, else %q: %q", set[0], set[1], f, v.Text, as[f].Text, text)
				}
			}
		}
	}
	if certain < 1000 || 300*other > certain {
		t.Errorf("%d of %d certain values are others where the lines break elsewhere", other, certain)
	}
}

// TestTitlesByKind reads what it was called, or what was bought, held or done, from papers of every
// kind as they are written every day; "" stands for no title.
func TestTitlesByKind(t *testing.T) {
	for _, c := range papersByKind {
		r := extract.Understand(pagesOf(c.text), extract.Hints{})[0]
		kind, title := r.Values[paper.FieldKind], r.Values[paper.FieldTitle]
		if kind.Text != string(c.kind) || title.Text != c.title || c.certain && !title.Certain {
			t.Errorf("%q: %s %q, certain %v; want %s %q, %v", c.text, kind.Text, title.Text, title.Certain, c.kind, c.title, c.certain)
		}
	}
}

// TestSubjectNamesTheEvent: the body of a message speaks of "the lecture", its subject names it.
func TestSubjectNamesTheEvent(t *testing.T) {
	for subject, want := range map[string]string{
		"Your certificate of attendance: Ropes at Sea":     "Ropes at Sea",
		"Fwd: Confirmation of participation: Ropes at Sea": "Ropes at Sea",
		"Your certificate for “Ropes at Sea”":              "Ropes at Sea",
		"Certificate of attendance for Ropes at Sea":       "Ropes at Sea",
		"Certificate of attendance: Mona Arkell":           "",
		"Your certificate of attendance":                   "",
	} {
		doc := pagesOf("Dear Mona,\nplease accept this as confirmation that you attended the lecture on 14 May 2026 from 18:00 to 19:30.\nTannvale Lifting Society")
		doc.Type, doc.Mail = "eml", &page.Mail{From: "events@tannvale.example", To: "Mona Arkell <mona@arkell.example>", Date: "2026-05-20", Subject: subject}
		if v := extract.Understand(doc, extract.Hints{})[0].Values[paper.FieldTitle]; want != "" && v.Text != want || want == "" && (v.Certain || v.Text == "Mona Arkell") {
			t.Errorf("%q: %q, certain %v; want %q", subject, v.Text, v.Certain, want)
		}
	}
}
