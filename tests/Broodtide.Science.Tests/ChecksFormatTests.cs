using Broodtide.Checks;

namespace Broodtide.Science.Tests;

public sealed class ChecksFormatTests
{
    private const string Header = "quantity,inputs,expected,unit,tolerance,source,provenance,note\n";

    [Fact]
    public void A_field_in_quotes_keeps_its_commas_and_doubled_quotes() =>
        Assert.Equal(["a", "b, \"c\"", "", "d"], CsvLine.Split("a,\"b, \"\"c\"\"\",,d"));

    [Theory]
    [InlineData("density.eos80,S=35; t68_C=25,1023.34306,kg/m3,0.00002", "fields")]
    [InlineData("density.eos80,\"S=35; t68_C=25,1023.34306,kg/m3,0.00002,s,p,", "not closed")]
    [InlineData("density.eos80,S=35 t68_C=25,1023.34306,kg/m3,0.00002,s,p,", "S")]
    [InlineData("density.eos80,S=35; t68_C,1023.34306,kg/m3,0.00002,s,p,", "pairs such as")]
    [InlineData("density.eos80,S=35; S=36; t68_C=25,1023.34306,kg/m3,0.00002,s,p,", "twice")]
    [InlineData("density.eos80,S=35; t68_C=25,about 1023,kg/m3,0.00002,s,p,", "column expected")]
    [InlineData("density.eos80,S=35; t68_C=25,1023.34306,kg/m3,-1,s,p,", "column tolerance")]
    [InlineData("density.eos80,S=35; t68_C=25,1023.34306,kg/m3,NaN,s,p,", "column tolerance")]
    [InlineData("density.eos80,S=35; t68_C=\"25\",1023.34306,kg/m3,0.1,s,p,", "double quote")]
    [InlineData("density.eos80,S=thirty; t68_C=25,1023.34306,kg/m3,0.1,s,p,", "a number is wanted")]
    [InlineData("density.eos80,S=35,1023.34306,kg/m3,0.1,s,p,", "t68_C is missing")]
    [InlineData("density.eos80,S=35; t68_C=25; p=0,1023.34306,kg/m3,0.1,s,p,", "p is no key")]
    public void A_malformed_row_fails_and_says_where_and_what_is_allowed(string row, string words)
    {
        var (told, code) = Run(Header + row + "\n");
        Assert.Equal(1, code);
        Assert.Contains(":2: malformed", told, StringComparison.Ordinal);
        Assert.Contains(words, told, StringComparison.Ordinal);
        Assert.EndsWith("0 passed, 1 failed, 0 unknown", told, StringComparison.Ordinal);
    }

    [Fact]
    public void A_foreign_file_is_one_failure_that_names_the_columns_wanted()
    {
        var (told, code) = Run("name;value\na;1\n");
        Assert.Equal(1, code);
        Assert.Contains(
            "lacks the column quantity, inputs, expected, tolerance",
            told,
            StringComparison.Ordinal
        );
        Assert.EndsWith("0 passed, 1 failed, 0 unknown", told, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_is_not_there_is_a_failure()
    {
        using var output = new StringWriter();
        Assert.Equal(1, CheckReport.Run(["no-such-file.csv"], "data", output));
        Assert.Contains("cannot be read", output.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_wrong_value_is_told_with_expected_found_and_tolerance()
    {
        var (told, code) = Run(Header + "salinity.of_mixture,S1=35; m1_kg=1; S2=0; m2_kg=1,18,1,0.1,s,p,\n");
        Assert.Equal(1, code);
        Assert.Contains("expected 18, found 17.5, tolerance 0.1", told, StringComparison.Ordinal);
    }

    [Fact]
    public void An_unknown_quantity_is_told_and_counted_but_is_no_failure()
    {
        var (told, code) = Run(Header + "moon.phase,day=3,0.1,1,0.1,s,p,\n");
        Assert.Equal(0, code);
        Assert.Contains(":2: unknown quantity moon.phase", told, StringComparison.Ordinal);
        Assert.EndsWith("0 passed, 0 failed, 1 unknown", told, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("density.eos80,S=-1; t68_C=25,NaN,kg/m3,0,s,p,", true)]
    [InlineData("density.eos80,S=NaN; t68_C=25,NaN,kg/m3,0,s,p,", true)]
    [InlineData("density.eos80,S=Inf; t68_C=25,NaN,kg/m3,0,s,p,", true)]
    [InlineData("density.eos80,S=35; t68_C=25,NaN,kg/m3,0,s,p,", false)]
    [InlineData("density.eos80,S=-1; t68_C=25,1000,kg/m3,1e9,s,p,", false)]
    [InlineData("density.eos80,S=thirty; t68_C=25,NaN,kg/m3,0,s,p,", false)]
    [InlineData("salt.ion_concentration,ion=Au; S=35,NaN,g/kg,0,s,p,", true)]
    [InlineData("salinity.conductivity,S=35; t90_C=15; p_dbar=100,NaN,mS/cm,0,s,p,", true)]
    public void NaN_wants_a_refusal_and_only_a_refusal(string row, bool passes) =>
        Assert.Equal(passes ? 0 : 1, Run(Header + row + "\n").Code);

    [Fact]
    public void Lines_may_end_the_windows_way_and_start_with_a_byte_order_mark() =>
        Assert.Equal(
            "1 passed, 0 failed, 0 unknown",
            Run(
                (
                    "\uFEFF" + Header + "salinity.of_mixture,S1=35; m1_kg=1; S2=0; m2_kg=1,17.5,1,0,s,p,"
                ).Replace("\n", "\r\n", StringComparison.Ordinal)
            ).Told
        );

    [Fact]
    public void Lists_are_compared_item_by_item_and_need_the_same_length()
    {
        var row = new CheckRow(2, "a.b", CheckInputs.Parse(""), [1, 2], 0.1, "");
        Assert.True(new Answer([1.05, 1.95], null).Meets(row));
        Assert.False(new Answer([1.05, 2.2], null).Meets(row));
        Assert.False(new Answer([1, 2, 3], null).Meets(row));
        Assert.Equal([1, 2], CheckValue.ParseNumbers("[1 2]", "expected"));
        Assert.Throws<CheckFormatException>(() => CheckValue.ParseNumbers("[1  2]", "expected"));
    }

    [Fact]
    public void A_data_file_has_comments_columns_missing_values_and_infinity()
    {
        var table = DataTable.Parse("# made up\nkind,x\na,1\nb,\na,Inf\n");
        Assert.Equal([1, double.NaN, double.PositiveInfinity], table.Numbers("x"));
        Assert.Equal([1, double.PositiveInfinity], table.Where("kind", "a").Numbers("x"));
        Assert.Throws<CheckFormatException>(() => table.Numbers("y"));
        Assert.Throws<CheckFormatException>(() => table.Numbers("kind"));
    }

    [Fact]
    public void A_data_file_is_sought_beside_the_check_file_first()
    {
        var folder = Directory.CreateTempSubdirectory();
        try
        {
            var beside = Directory.CreateDirectory(Path.Combine(folder.FullName, "data"));
            var given = Directory.CreateDirectory(Path.Combine(folder.FullName, "given"));
            File.WriteAllText(Path.Combine(given.FullName, "t.csv"), "x\n2\n");
            var surroundings = CheckSurroundings.Of(
                Path.Combine(folder.FullName, "checks.csv"),
                given.FullName
            );
            Assert.Equal([2], surroundings.Table("t.csv").Numbers("x"));
            File.WriteAllText(Path.Combine(beside.FullName, "t.csv"), "x\n1\n");
            Assert.Equal([1], surroundings.Table("t.csv").Numbers("x"));
            Assert.Throws<CheckFormatException>(() => surroundings.Table("u.csv"));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static (string Told, int Code) Run(string text)
    {
        var path = Path.GetTempFileName();
        try
        {
            File.WriteAllText(path, text);
            using var output = new StringWriter();
            var code = CheckReport.Run([path], "data", output);
            return (output.ToString().TrimEnd(), code);
        }
        finally
        {
            File.Delete(path);
        }
    }
}
