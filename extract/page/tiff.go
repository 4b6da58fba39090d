package page

import (
	"encoding/binary"
	"slices"
)

// mostTIFF is how many pages of one TIFF are looked for.
const mostTIFF = 1000

// mostDrawn is how many of them are read; the others are counted as unread.
const mostDrawn = 100

// tiffPages returns where the directory of each page of a TIFF begins, in order. It ends
// at a directory that lies outside the file or was met before; one that cannot be
// followed is left out. Source: TIFF 6.0, section 2.
func tiffPages(b []byte) []uint32 {
	order := tiffOrder(b)
	if order == nil {
		return nil
	}
	var list []uint32
	for at := order.Uint32(b[4:]); at != 0 && int64(at)+2 <= int64(len(b)) && len(list) < mostTIFF && !slices.Contains(list, at); {
		list = append(list, at)
		next := int64(at) + 2 + 12*int64(order.Uint16(b[at:]))
		if next+4 > int64(len(b)) {
			break
		}
		at = order.Uint32(b[next:])
	}
	return list
}

// tiffOrder is the order of bytes that the head names; nil if it is no TIFF.
func tiffOrder(b []byte) binary.ByteOrder {
	if len(b) < 8 {
		return nil
	}
	switch string(b[:4]) {
	case "II*\x00":
		return binary.LittleEndian
	case "MM\x00*":
		return binary.BigEndian
	}
	return nil
}

// tiffPage returns the file with the page whose directory begins at dir as its first.
func tiffPage(b []byte, dir uint32) []byte {
	out := slices.Clone(b)
	tiffOrder(b).PutUint32(out[4:], dir)
	return out
}
