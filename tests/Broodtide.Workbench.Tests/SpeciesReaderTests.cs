using System.Text;
using Broodtide.Workbench.Species;
using CsCheck;

namespace Broodtide.Workbench.Tests;

public sealed class SpeciesReaderTests
{
    // The text of the shipped file, one place spoilt: what was there, what stands there now, the fault, its path.
    public static TheoryData<string, string, string, string> Spoilt =>
        new()
        {
            { "\"format\": 1", "\"format\": 2", ProfileFaultCodes.NotAllowed, "$.format" },
            { "\"format\": 1", "\"format\": \"1\"", ProfileFaultCodes.NotUnderstood, "$.format" },
            {
                "\"format\": 1,",
                "\"format\": 1, \"colour\": 3,",
                ProfileFaultCodes.NotUnderstood,
                "$.colour"
            },
            {
                "\"format\": 1,",
                "\"format\": 1, \"format\": 1,",
                ProfileFaultCodes.NotUnderstood,
                "$.format"
            },
            {
                "\"scientificName\": \"Caridina multidentata\"",
                "\"scientificName\": \" \"",
                ProfileFaultCodes.Missing,
                "$.scientificName"
            },
            {
                "\"code\": \"caridina-multidentata\"",
                "\"code\": \"Caridina\"",
                ProfileFaultCodes.NotAllowed,
                "$.code"
            },
            {
                "\"unit\": \"Cel.d\"",
                "\"unit\": \"degree-day\"",
                ProfileFaultCodes.NotAllowed,
                "$.quantities[0].unit"
            },
            {
                "\"value\": 637.5",
                "\"value\": \"637,5\"",
                ProfileFaultCodes.NotUnderstood,
                "$.quantities[0].value"
            },
            { "\"value\": 637.5", "\"value\": 1e999", ProfileFaultCodes.NotAllowed, "$.quantities[0].value" },
            {
                "\"value\": 637.5",
                "\"value\": -637.5",
                ProfileFaultCodes.NotAllowed,
                "$.quantities[0].value"
            },
            { "\"value\": 637.5,", "", ProfileFaultCodes.Missing, "$.quantities[0]" },
            {
                "\"value\": 637.5",
                "\"value\": 637.5, \"high\": 600, \"bounds\": \"range\"",
                ProfileFaultCodes.NotAscending,
                "$.quantities[0]"
            },
            {
                "\"value\": 637.5",
                "\"value\": 637.5, \"high\": 700",
                ProfileFaultCodes.Missing,
                "$.quantities[0].bounds"
            },
            {
                "\"value\": 637.5",
                "\"value\": 637.5, \"bounds\": \"range\"",
                ProfileFaultCodes.NotExpected,
                "$.quantities[0].bounds"
            },
            {
                "\"provenance\": \"measured\"",
                "\"provenance\": \"read\"",
                ProfileFaultCodes.NotAllowed,
                "$.quantities[0].provenance"
            },
            {
                "\"provenance\": \"measured\"",
                "\"provenance\": \"borrowed\"",
                ProfileFaultCodes.Missing,
                "$.quantities[0].borrowedFrom"
            },
            {
                "\"provenance\": \"measured\"",
                "\"provenance\": \"measured\", \"borrowedFrom\": \"Palaemon\"",
                ProfileFaultCodes.NotExpected,
                "$.quantities[0].borrowedFrom"
            },
            {
                "\"code\": \"embryo-spread-factor\"",
                "\"code\": \"embryo-degree-days\"",
                ProfileFaultCodes.Twice,
                "$.quantities[1].code"
            },
            {
                "\"code\": \"larval-salinity-target\"",
                "\"code\": \"larval-salinity-aim\"",
                ProfileFaultCodes.Missing,
                "$.quantities"
            },
            {
                "\"publishedRange\": \"larval-salinity\"",
                "\"publishedRange\": \"larval-days\"",
                ProfileFaultCodes.NotAllowed,
                "$.quantities[36].publishedRange"
            },
            { "\"order\": 2", "\"order\": 3", ProfileFaultCodes.NotAscending, "$.stages[1].order" },
            {
                "\"when\": \"about\"",
                "\"when\": \"soon\"",
                ProfileFaultCodes.NotAllowed,
                "$.stages[2].signs[0].when"
            },
            { "\"count\": 14", "\"count\": -1", ProfileFaultCodes.NotAllowed, "$.stages[0].signs[1].count" },
            { "\"is\": \"night\"", "\"is\": \"At night\"", ProfileFaultCodes.NotAllowed, "$.facts[0].is" },
        };

    [Theory]
    [MemberData(nameof(Spoilt))]
    public void A_spoilt_file_gives_a_reason_with_its_path(string was, string now, string fault, string place)
    {
        var at = SpeciesFiles.ProfileText.IndexOf(was, StringComparison.Ordinal);
        Assert.True(at >= 0, was);
        var text = SpeciesFiles.ProfileText.Remove(at, was.Length).Insert(at, now);
        var reading = SpeciesProfile.Read(Encoding.UTF8.GetBytes(text));
        Assert.Null(reading.Profile);
        Assert.Equal((fault, place), (reading.Fault?.Code, reading.Fault?.Place));
    }

    [Theory]
    [InlineData("", ProfileFaultCodes.NotUnderstood)]
    [InlineData("null", ProfileFaultCodes.Missing)]
    [InlineData("[]", ProfileFaultCodes.NotUnderstood)]
    [InlineData("{", ProfileFaultCodes.NotUnderstood)]
    [InlineData("{}", ProfileFaultCodes.NotAllowed)]
    [InlineData("{\"format\":1}", ProfileFaultCodes.Missing)]
    [InlineData(
        "{\"format\":1,\"code\":\"a\",\"scientificName\":\"A\",\"quantities\":[null]}",
        ProfileFaultCodes.Missing
    )]
    [InlineData("{\"format\":1} x", ProfileFaultCodes.NotUnderstood)]
    [InlineData("species,parameter,value", ProfileFaultCodes.NotUnderstood)]
    public void A_foreign_text_gives_a_reason(string text, string fault)
    {
        var reading = SpeciesProfile.Read(Encoding.UTF8.GetBytes(text));
        Assert.Null(reading.Profile);
        Assert.Equal(fault, reading.Fault?.Code);
        Assert.StartsWith("$", reading.Fault?.Place, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_allowed_is_said_beside_what_was_found()
    {
        var text = SpeciesFiles.ProfileText.Replace(
            "\"when\": \"about\"",
            "\"when\": \"soon\"",
            StringComparison.Ordinal
        );
        var fault = SpeciesProfile.Read(Encoding.UTF8.GetBytes(text)).Fault!;
        Assert.Equal("soon", fault.Found);
        Assert.Equal(["at", "about", "after"], fault.Allowed);
    }

    [Fact]
    public void A_text_that_is_cut_off_names_the_line()
    {
        var whole = SpeciesFiles.ProfileText;
        var cut = whole[..whole.IndexOf("\"facts\"", StringComparison.Ordinal)];
        var fault = SpeciesProfile.Read(Encoding.UTF8.GetBytes(cut)).Fault!;
        Assert.Equal(cut.Count(letter => letter == '\n') + 1, fault.Line);
    }

    [Fact]
    public void A_byte_order_mark_does_no_harm()
    {
        byte[] marked = [0xEF, 0xBB, 0xBF, .. SpeciesFiles.Profile];
        Assert.NotNull(SpeciesProfile.Read(marked).Profile);
    }

    [Fact]
    public void No_damage_to_the_bytes_makes_the_reader_throw()
    {
        var whole = SpeciesFiles.Profile;
        Gen.Select(Gen.Int[0, whole.Length - 1], Gen.Byte)
            .Array[1, 4]
            .Select(Gen.Int[0, whole.Length], Gen.Int[0, 3])
            .Sample(
                (damage, length, cut) =>
                {
                    var bytes = whole.ToArray();
                    foreach (var (at, value) in damage)
                    {
                        bytes[at] = value;
                    }

                    var reading = SpeciesProfile.Read(cut == 0 ? bytes.AsSpan(0, length) : bytes);
                    Assert.True(reading.Profile is null != reading.Fault is null);
                },
                iter: 500
            );
    }
}
