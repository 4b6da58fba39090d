package page

import (
	"bytes"
	"encoding/binary"
	"math"
)

// imageHead is what the head of a picture says of how to show it.
type imageHead struct {
	orientation int // 1 to 8 as Exif has it; 0 unknown
	dpi         int // dots to the inch; 0 unknown
}

// headOf reads orientation and density. It follows no more than a few dozen steps,
// whatever the file says, and never fails: what makes no sense stays unknown.
func headOf(b []byte, kind string) imageHead {
	switch kind {
	case "jpeg":
		return jpegHead(b)
	case "png":
		return pngHead(b)
	case "tiff":
		return exif(b)
	}
	return imageHead{}
}

// jpegHead walks the segments before the picture. Source: ITU T.81, annex B; JFIF 1.02.
func jpegHead(b []byte) imageHead {
	var h imageHead
	for at, step := 2, 0; at+4 <= len(b) && b[at] == 0xff && step < 64; step++ {
		mark, n := b[at+1], int(binary.BigEndian.Uint16(b[at+2:]))
		if mark == 0xda || n < 2 || at+2+n > len(b) {
			break
		}
		seg := b[at+4 : at+2+n]
		switch {
		case mark == 0xe0 && len(seg) >= 12 && string(seg[:5]) == "JFIF\x00" && h.dpi == 0:
			density := int(binary.BigEndian.Uint16(seg[8:]))
			switch seg[7] {
			case 1:
				h.dpi = sensible(density)
			case 2:
				h.dpi = sensible(density * 254 / 100)
			}
		case mark == 0xe1 && len(seg) > 6 && string(seg[:6]) == "Exif\x00\x00":
			x := exif(seg[6:])
			h.orientation = x.orientation
			if x.dpi != 0 {
				h.dpi = x.dpi
			}
		}
		at += 2 + n
	}
	return h
}

// pngHead looks for the density. Source: PNG third edition, section 11.3.4.3.
func pngHead(b []byte) imageHead {
	at := bytes.Index(b[:min(len(b), 64<<10)], []byte("pHYs"))
	if at < 0 || at+13 > len(b) || b[at+12] != 1 {
		return imageHead{}
	}
	metre := float64(binary.BigEndian.Uint32(b[at+4:]))
	return imageHead{dpi: sensible(int(math.Round(metre * 0.0254)))}
}

// sensible lets a density pass that a scanner or camera may have.
func sensible(dpi int) int {
	if dpi < 20 || dpi > 4800 {
		return 0
	}
	return dpi
}

// exif reads the first directory only. Source: TIFF 6.0, section 2.
func exif(b []byte) imageHead {
	var h imageHead
	order := tiffOrder(b)
	if order == nil {
		return h
	}
	dir := int64(order.Uint32(b[4:]))
	if dir+2 > int64(len(b)) {
		return h
	}
	unit, density := 2, 0.0
	for i := range min(int64(order.Uint16(b[dir:])), 64) {
		at := dir + 2 + 12*i
		if at+12 > int64(len(b)) {
			break
		}
		entry := b[at : at+12]
		value := int(order.Uint16(entry[8:]))
		switch order.Uint16(entry) {
		case 0x0112:
			if value >= 1 && value <= 8 {
				h.orientation = value
			}
		case 0x011a:
			if p := int64(order.Uint32(entry[8:])); p+8 <= int64(len(b)) {
				if under := order.Uint32(b[p+4:]); under != 0 {
					density = float64(order.Uint32(b[p:])) / float64(under)
				}
			}
		case 0x0128:
			unit = value
		}
	}
	if unit == 3 {
		density *= 2.54
	}
	if density > 0 && density < 5000 {
		h.dpi = sensible(int(math.Round(density)))
	}
	return h
}
