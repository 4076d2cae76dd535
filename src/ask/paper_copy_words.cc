#include "ask/paper_copy_words.h"

namespace ohmstead {

std::string paper_copy_title(const PaperCopyFacts& facts) { return "Paper copy" + (facts.house.empty() ? "" : ": " + facts.house); }

std::string paper_copy_caption(const PaperCopyFacts& facts, int codes_here, int code_pages) {
  const std::string all = std::to_string(facts.k + facts.m), any = std::to_string(facts.k);
  const std::string here = code_pages == 1 ? "" : ", " + std::to_string(codes_here) + " of them on this page";
  return "Set " + facts.set + ", revision " + std::to_string(facts.revision) + ": " + all + " codes" + here + "; any " + any + " of these " + all +
         " bring the whole record back. Scan them in any order with a flatbed scanner or phone and give the pictures or the text to "
         "'ohmstead from-paper'. The last page says how to read them without the program.";
}

std::string paper_copy_foot(const PaperCopyFacts& facts) { return "SHA-256 of the record " + facts.sha256; }

const std::vector<HowToPart>& how_to_read_paper_copy() {
  static const std::vector<HowToPart> kParts{
      {"What this is",
       {"The other pages carry QR codes (ISO/IEC 18004) with plain text in them. Together they hold the record of one house as one JSON document "
        "(RFC 8259). This page says every step from the codes to that document; besides it one needs something that reads QR codes and something that inflates zlib data. Numbers are decimal unless they begin with 0x."}},
      {"1. The text of a code",
       {"OHP1/SET/REVISION/NUMBER.K.M/BODY. SET is eight hexadecimal digits, the name of the set. REVISION is that of the record. NUMBER goes from 1 to K + M; "
        "codes 1 to K are data, the M others recovery. Use codes with one and the same SET, REVISION, K and M.",
        "BODY is base 32 as in RFC 4648 without padding: A to Z are 0 to 25, 2 to 7 are 26 to 31. Each character is 5 bits, the highest first; the bits in a row are "
        "cut into bytes of 8; fewer than 5 bits are left over, all zero. The last 4 bytes are a check sum, highest byte first; the bytes before them are the shard.",
        "The check sum is the CRC-32 of zlib and PNG (polynomial 0x04C11DB7, reflected 0xEDB88320, start and final xor 0xFFFFFFFF; of the nine characters 123456789 it is "
        "0xCBF43926), taken over the characters of the text from OHP1 up to and with the last '/', and then the bytes of the shard."}},
      {"2. From the shards to the data",
       {"All shards are of one length. With shards 1 to K at hand, put them one after the other: these are the data. The CRC-32 of the data is SET.",
        "If some of them are missing, calculate with bytes as elements of the field of 256: to add is xor; to multiply is to multiply polynomials modulo x^8 + x^4 + x^3 + x^2 + 1 "
        "(0x11D), so 0x80 times 2 is 0x1D; 1/a is the byte that gives 1 when multiplied by a. Let D_0 to D_(K-1) be the data shards 1 to K. At each place in the shards, recovery shard "
        "number K + 1 + p, where p begins with 0, is the sum over j from 0 to K - 1 of D_j times 1/((K + p) xor j). So each shard at hand is one linear equation for the D_j; any K of them "
        "give all D_j by Gaussian elimination."}},
      {"3. From the data to ids and text",
       {"Bytes 0 to 31 are the SHA-256 of the JSON document; it is printed at the foot of every page. Bytes 32 to 35 are the number N of ids, highest byte first. Then come N ids as "
        "bits, the highest of each number first, with nothing between them: a bit 0 and the 60 bits of the id, or a bit 1 and 5 bits, which are a number s: this id is the one before it plus s + 1. The "
        "last byte is filled up with zero bits. As text an id is 12 characters of 5 bits, the highest first, in the alphabet "
        "0123456789abcdefghjkmnpqrstvwxyz. Then comes a zlib stream (RFC 1950 and 1951), and after its end only zero bytes. Inflated it is text in UTF-8."}},
      {"4. From the columns to the document",
       {"The text is JSON: {\"format\": \"ohmstead columns\", \"version\": 1, \"document\": [F, V], \"tables\": [...]}. The document is an object with the members \"format\": F and \"version\": V, "
        "and then one member for each table. A table is [name, R, column, column ...]. Its member is an array of R objects, or one object alone if R is null. A column is [name, how, ...] and gives one "
        "member to each of these objects, in the order of the columns. By how:",
        "\"id\": the next ids of the list, which goes through all tables in order.",
        "\"=\", v: v in every row.",
        "\"l\", list: the values as they are.",
        "\"n\", list: whole numbers.",
        "\"r\", list: the id of the row of that number, where rows are counted from 1 through all tables; 0 is null.",
        "\"t\", list: a moment in seconds since 1970-01-01T00:00:00Z without leap seconds, written in this way; 0 is \"\".",
        "\"w\", words, list: the words at these places; the first place is 0.",
        "\"k\", words, places, list: the word at that place, ':' and the id of the row of that number; with row 0 the word alone.",
        "A '+' behind n, r, t, w or k says that the last list holds differences: each value is the one before it plus what stands in the list; before the first it is 0.",
        "Written with every value on a line of its own, two spaces of indent, one space behind ':', [] for an empty array, no more escapes than JSON needs and a newline at the end, the document has the SHA-256 that is "
        "printed. Units are in the names of its members."}},
  };
  return kParts;
}

}  // namespace ohmstead
