package extract

var (
	// endsLetter is a line with which a letter ends, beside those of [valediction].
	endsLetter = matching(`^(?:with |mit |avec |con |met )(?:\S+ ){0,3}?(?:congratulations|thanks|appreciation|compliments|gluckwunschen|dank|hochachtung|felicitations|remerciements|salutations|consideration|enhorabuena|felicitacion(?:es)?|agradecimiento|saludos?|gelukwensen|felicitaties|groet(?:en)?|hoogachting)[,.!]?$|^(?:(?:bien )?cordialement|bien a vous|sinceres salutations|veuillez (?:agreer|recevoir)\b.*|atentamente|cordialmente|(?:un )?(?:cordial |atento )?saludos?(?: cordial(?:es)?)?|hoogachtend|(?:met )?(?:vriendelijke|hartelijke|beste) groet(?:en)?|cheers|best|hochachtungsvoll)[,.!]?$`)
	// saysSo is nothing but the verb by which a paper certifies.
	saysSo = matching(`^(?:(?:por la presente )?(?:hacen?|hacemos) (?:constar|saber)|por la presente|certifican?|acreditan?|expiden?|otorgan?|hereby certif\w+|certif(?:y|ies|ie|ient)|attest(?:s|e|ent)?|par la presente|atteste par la presente|hiermit|bescheinig(?:t|en)(?: hiermit)?|bestatig(?:t|en)(?: hiermit)?|hierbij|verklaart(?: hierbij)?|verklaren(?: hierbij)?|bevestigt|bevestigen|attesteert)[ :,.]*$`)
	// forSome is a part of a body for which somebody signs, which names no body.
	forSome = matching(`^(?:for|on behalf of|fur|pour|por|voor|namens|im auftrag|im namen|au nom|en nombre|i\.\s?a\.?|i\.\s?v\.?|p\.?\s?p\.?)(?: (?:of|de[rsm]?|du|del|van|la|le|les|el|los|the|our|unsere?|notre|nuestr[oa]|ons|onze|das|die|den|het))*(?: \S*(?:editors?|editorial board|board|committee|council|trustees|office|secretariat|faculty|examiners|school|team|forum|society|club|redaktion|schriftleitung|herausgeber|vorstand|leitung|ausschuss|geschaftsstelle|prufungskommission|redaction|comite|conseil|bureau|secretariat|direction|jury|redaccion|consejo|junta|secretaria|direccion|comision|redactie|bestuur|commissie|directie|secretariaat|examencommissie))[.,]?$|^(?:i\. ?a\.?|i\. ?v\.?|p\.? ?p\.?|im auftrag|p\. ?o\.)$`)
)

// closesLetter reports a line with which a letter ends, so that who writes stands beneath it.
func closesLetter(text string) bool {
	low := fold(text)
	return valediction.MatchString(low) || endsLetter.MatchString(low)
}
