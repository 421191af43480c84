using System.Text;
using System.Text.Json;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Tests.Kit;
using CsCheck;

namespace Broodtide.Domain.Tests;

public class CanonicalJsonTests
{
    [Fact]
    public void Numbers_are_written_as_RFC_8785_appendix_B_shows()
    {
        var rows = Files.Pairs("reference/rfc8785-numbers.csv").ToList();
        Assert.Equal(24, rows.Count);
        Assert.All(rows, row => Assert.Equal(row.Right, EcmaNumber.Format(FromBits(row.Left))));
    }

    // Written by node's JSON.stringify: eng/reference/make-canonical-cases.mjs.
    [Fact]
    public void Numbers_are_written_as_ECMAScript_writes_them()
    {
        var rows = Files.Pairs("reference/ecma-numbers.csv").ToList();
        Assert.True(rows.Count > 3_800, $"{rows.Count} rows");
        Assert.All(rows, row => Assert.Equal(row.Right, EcmaNumber.Format(FromBits(row.Left))));
    }

    // Written by the npm package canonicalize: eng/reference/make-canonical-cases.mjs.
    [Fact]
    public void Values_are_written_as_another_implementation_writes_them()
    {
        var lines = Files.Lines("reference/canonical-json.jsonl");
        Assert.StartsWith("{\"made\":\"canonicalize 4.0.0\"", lines[0], StringComparison.Ordinal);
        Assert.Equal(401, lines.Length);
        foreach (var line in lines.Skip(1))
        {
            using var row = JsonDocument.Parse(line);
            var input = row.RootElement.GetProperty("input").GetString()!;
            Assert.Equal(row.RootElement.GetProperty("output").GetString(), Canonical(input));
        }
    }

    [Fact]
    public void Every_finite_double_is_read_back_as_it_was() =>
        Gen
            .Double.Where(double.IsFinite)
            .Sample(value => Assert.Equal(value, double.Parse(EcmaNumber.Format(value))));

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void What_is_no_finite_number_is_not_written(double value) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => EcmaNumber.Format(value));

    // RFC 8785, section 3.2.2: input; section 3.2.4: the bytes it becomes.
    [Fact]
    public void The_worked_example_of_RFC_8785_becomes_its_bytes()
    {
        const string Input = """
            {
              "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
              "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
              "literals": [null, true, false]
            }
            """;
        const string Bytes =
            "7b226c69746572616c73223a5b6e756c6c2c747275652c66616c73655d2c226e756d62657273223a"
            + "5b3333333333333333332e333333333333332c31652b33302c342e352c302e3030322c31652d3237"
            + "5d2c22737472696e67223a22e282ac245c75303030665c6e4127425c225c5c5c5c5c222f227d";
        Assert.Equal(Bytes, Convert.ToHexStringLower(CanonicalJson.From(Encoding.UTF8.GetBytes(Input))));
    }

    // RFC 8785, section 3.2.3: the order of these names, by UTF-16 code units.
    [Fact]
    public void Names_are_sorted_by_UTF_16_as_RFC_8785_shows()
    {
        const string Input = """
            {
              "\u20ac": "Euro Sign",
              "\r": "Carriage Return",
              "\ufb33": "Hebrew Letter Dalet With Dagesh",
              "1": "One",
              "\ud83d\ude00": "Emoji: Grinning Face",
              "\u0080": "Control",
              "\u00f6": "Latin Small Letter O With Diaeresis"
            }
            """;
        using var sorted = JsonDocument.Parse(Canonical(Input));
        Assert.Equal(
            [
                "Carriage Return",
                "One",
                "Control",
                "Latin Small Letter O With Diaeresis",
                "Euro Sign",
                "Emoji: Grinning Face",
                "Hebrew Letter Dalet With Dagesh",
            ],
            sorted.RootElement.EnumerateObject().Select(member => member.Value.GetString())
        );
    }

    [Fact]
    public void Characters_are_escaped_as_RFC_8785_section_3_2_2_2_says()
    {
        for (var c = 0; c < 0x80; c++)
        {
            var expected = c switch
            {
                8 => "\\b",
                9 => "\\t",
                10 => "\\n",
                12 => "\\f",
                13 => "\\r",
                '"' => "\\\"",
                '\\' => "\\\\",
                < 32 => $"\\u{c:x4}",
                _ => ((char)c).ToString(),
            };
            Assert.Equal($"\"{expected}\"", Canonical($"\"\\u{c:X4}\""));
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("{")]
    [InlineData("{} {}")]
    [InlineData("{'a':1}")]
    [InlineData("[1,]")]
    [InlineData("{\"a\":1,\"a\":2}")]
    [InlineData("{\"a\":1,\"\\u0061\":2}")]
    [InlineData("1e400")]
    [InlineData("NaN")]
    [InlineData("// a remark\n1")]
    [InlineData("\"\\ud800\"")]
    [InlineData("\"\\udc00\\ud800\"")]
    [InlineData("{\"\\ud800\":1}")]
    [InlineData("{\"\\ud800\":1,\"\\ud801\":2}")]
    public void What_is_no_I_JSON_is_refused(string text)
    {
        Assert.ThrowsAny<JsonException>(() => Canonical(text));
        Assert.False(CanonicalJson.Is(Encoding.UTF8.GetBytes(text)));
    }

    [Theory]
    [InlineData("22ff22")]
    [InlineData("7b22c0af223a317d")]
    [InlineData("efbbbf7b7d")]
    public void Bytes_that_are_no_UTF_8_are_refused(string hex)
    {
        Assert.ThrowsAny<JsonException>(() => CanonicalJson.From(Convert.FromHexString(hex)));
        Assert.False(CanonicalJson.Is(Convert.FromHexString(hex)));
    }

    [Fact]
    public void A_value_deeper_than_the_reader_follows_is_refused() =>
        Assert.ThrowsAny<JsonException>(() => Canonical(new string('[', 100_000)));

    [Theory]
    [InlineData("{\"a\":1,\"b\":[true,null,\"x\"]}", true)]
    [InlineData("{\"b\":1,\"a\":1}", false)]
    [InlineData("{\"a\": 1}", false)]
    [InlineData("1.0", false)]
    [InlineData("-0", false)]
    [InlineData("\"\\u0041\"", false)]
    public void Only_the_canonical_form_is_canonical(string text, bool canonical) =>
        Assert.Equal(canonical, CanonicalJson.Is(Encoding.UTF8.GetBytes(text)));

    private static string Canonical(string text)
    {
        var whole = CanonicalJson.Anew(Encoding.UTF8.GetBytes(text));
        Assert.Equal(whole, CanonicalJson.From(Encoding.UTF8.GetBytes(text)));
        return Encoding.UTF8.GetString(whole);
    }

    private static double FromBits(string hex) => BitConverter.UInt64BitsToDouble(Convert.ToUInt64(hex, 16));

    [Fact]
    public void What_is_seen_at_a_glance_to_be_canonical_is_canonical()
    {
        // Texts that are nearly so: pieces of JSON beside each other, most of them wrong.
        string[] pieces =
        [
            "{",
            "}",
            "[",
            "]",
            ",",
            ":",
            " ",
            "\"a\"",
            "\"b\"",
            "\"ab\"",
            "\"\"",
            "\"ü\"",
            "\"\\n\"",
            "\"\\u0061\"",
            "0",
            "-0",
            "1",
            "-7",
            "1.5",
            "1.50",
            "1e3",
            "1e21",
            "123456789012345678",
            "0.000001",
            "true",
            "null",
        ];
        var seen = 0;
        Gen.Select(Gen.Int[0, pieces.Length - 1].Array[1, 9], Gen.Bool)
            .Sample(
                (chosen, wrapped) =>
                {
                    var inner = string.Concat(chosen.Select(one => pieces[one]));
                    var text = Encoding.UTF8.GetBytes(wrapped ? $"{{\"a\":{inner},\"b\":[{inner}]}}" : inner);
                    if (CanonicalGlance.Sees(text))
                    {
                        Interlocked.Increment(ref seen);
                        Assert.Equal(text, CanonicalJson.Anew(text));
                    }
                },
                iter: 200_000
            );
        Assert.True(seen > 1000, $"{seen} seen");
    }

    [Fact]
    public void The_bytes_of_entries_are_seen_at_a_glance_and_what_is_changed_in_them_is_not()
    {
        foreach (var line in Files.Lines("reference/canonical-json.jsonl").Skip(1))
        {
            using var row = JsonDocument.Parse(line);
            var (input, output) = (
                row.RootElement.GetProperty("input").GetString()!,
                row.RootElement.GetProperty("output").GetString()!
            );
            Assert.True(input == output || !CanonicalGlance.Sees(Encoding.UTF8.GetBytes(input)), input);
        }

        Assert.True(CanonicalGlance.Sees("""{"a":1,"b":{"c":[1.5,-2,"x",null],"d":true},"e":"ü"}"""u8));
        Assert.False(CanonicalGlance.Sees("""{"a":1,"b":{"c":[1.5,-2,"x",null],"d":true}, "e":"ü"}"""u8));
        Assert.False(CanonicalGlance.Sees("""{"b":1,"a":2}"""u8));
        Assert.False(CanonicalGlance.Sees("""{"a":1,"a":2}"""u8));
        Assert.False(CanonicalGlance.Sees("{\"a\":1}\n"u8));
        Assert.False(CanonicalGlance.Sees([.. "\""u8, 0xC3, .. "\""u8]));
    }
}
