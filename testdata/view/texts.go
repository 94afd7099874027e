package view

import "strings"

// Labels are such as drawings carry, and some that are hard to measure.
var Labels = []string{
	"saloon fore", "D1 warm white 3 mm", "470 Ω ¼ W", "R12", "28 AWG, 350 mm", "USB 5 V, 500 mA", "1.2 A", "4k7",
	"WWWWWW", "iiiiiiii", "lllll", "mmmmm", "MASKING TAPE", "hull outside: grey primer", "12.4 mA (11.8–13.1 mA)",
	"Überlauf prüfen, Größe 5 µm", "Éclairage intérieur à l’avant", "señal de babor", "Прожектор на мачте",
	"Φωτισμός γέφυρας", "2026-02-14", "14:32", "±0.5 %", "1/48", "→ continued at B", "AVA To Wa", "f", "j", "1",
	"\"quoted\" <tag> & more", "@@@", "~^`|", "船室の灯り", "שלום עולם", "مرحبا", "नमस्ते", "💡 lamp", "ﬁne ﬂow",
	"e\u0301 combined", "zero\u200bwidth",
}

// Hostile holds texts that have broken writers of markup before.
var Hostile = []string{
	"", " ", "<", ">", "&", `"`, "'", "&amp;", "&#0;", "&#x41;", "]]>", "<!--", "-->", "<![CDATA[", "<?xml?>",
	"</text></svg><script>alert(1)</script>", `" onload="alert(1)`, "'><img src=x onerror=alert(1)>",
	"<style>*{display:none}</style>", "</title><script>", "</desc>", "</style>", "javascript:alert(1)",
	"\x00", "a\x00b", "\x01\x02\x1f", "\x7f\u0080\u009f", "\ufffe", "\uffff", "\U0001ffff", "\ufdd0", "\ufdef",
	"\xed\xa0\x80", "\xed\xbf\xbf", "\xff\xfe", "\xc0\xaf", "\xf4\x90\x80\x80", "ok\xe2\x28\xa1", "\ufffd",
	"tab\tnew\nline\r\n", "\u2028\u2029\u0085", "\u202e\u2066rtl", "\u200b\u200d\ufeff", "\u00a0", "𝕏💡", "{{.}}", "${x}", "--", "url(#x)",
	strings.Repeat("<&\"'>", 500),
}
