using Broodtide.Domain.Journal;
using Broodtide.Domain.Tests.Kit;
using CsCheck;

namespace Broodtide.Domain.Tests;

public class UnitCodeTests
{
    // Judged by the npm package @lhncbc/ucum-lhc: eng/reference/make-ucum-codes.mjs.
    [Fact]
    public void A_code_is_UCUM_or_is_listed_as_our_own()
    {
        var judged = Files.Pairs("reference/ucum-codes.csv").ToDictionary(row => row.Left, row => row.Right);
        foreach (var unit in UnitCode.All.Where(unit => unit.Code != UnitCode.PracticalSalinity))
        {
            Assert.True(judged.ContainsKey(unit.Code), $"{unit.Code} was not judged: run the script again");
            Assert.Equal(judged[unit.Code] == "valid", !IsOurOwn(unit.Code));
        }
    }

    [Fact]
    public void The_documentation_names_every_code_with_its_meaning_and_whether_it_is_our_own()
    {
        var rows = Files
            .Lines("docs/journal.md")
            .Where(line => line.StartsWith("| `", StringComparison.Ordinal) && line.Split('|').Length == 6)
            .Select(line => line.Split('|').Select(cell => cell.Trim()).ToArray())
            .Where(cells => cells[4] is "UCUM" or "own")
            .ToDictionary(cells => cells[1].Trim('`'));
        Assert.Equal(UnitCode.All.Select(unit => unit.Code).Order(), rows.Keys.Order());
        foreach (var unit in UnitCode.All)
        {
            Assert.Equal(unit.Dimension.ToString(), rows[unit.Code][2]);
            Assert.NotEmpty(rows[unit.Code][3]);
            Assert.Equal(IsOurOwn(unit.Code) ? "own" : "UCUM", rows[unit.Code][4]);
        }
    }

    [Fact]
    public void A_code_stands_once_and_is_found()
    {
        Assert.Equal(UnitCode.All.Count, UnitCode.All.Select(unit => unit.Code).Distinct().Count());
        Assert.All(UnitCode.All, unit => Assert.Same(unit, UnitCode.Find(unit.Code)));
        Assert.Null(UnitCode.Find("ppt"));
        Assert.Null(UnitCode.Find("l"));
    }

    [Fact]
    public void No_unit_allows_what_is_no_number() =>
        Assert.All(
            UnitCode.All,
            unit =>
            {
                Assert.False(unit.Allows(double.NaN));
                Assert.False(unit.Allows(double.PositiveInfinity));
                Assert.False(unit.Allows(double.NegativeInfinity));
                Assert.True(unit.Allows(unit.Lowest));
                Assert.True(unit.Allows(unit.Highest));
                Assert.False(unit.Allows(Math.BitDecrement(unit.Lowest)));
                Assert.False(unit.Allows(Math.BitIncrement(unit.Highest)));
            }
        );

    [Fact]
    public void Improbable_numbers_are_allowed_since_a_person_may_confirm_them()
    {
        Assert.True(UnitCode.Find("sal:sg")!.Allows(1025));
        Assert.True(UnitCode.Find(UnitCode.PracticalSalinity)!.Allows(60));
        Assert.True(UnitCode.Find("Cel")!.Allows(77));
    }

    [Fact]
    public void A_number_that_was_not_typed_has_its_shortest_text() =>
        Gen
            .Double.Where(double.IsFinite)
            .Sample(value => Assert.Equal(value, double.Parse(TypedNumber.Of(value, "L").Typed)));

    private static bool IsOurOwn(string code) =>
        code.StartsWith("sal:", StringComparison.Ordinal) || code is "[dKH]" or "[dGH]";
}
