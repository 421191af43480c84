using Broodtide.Domain.Journal;
using Broodtide.Workbench.Recording;
using CsCheck;

namespace Broodtide.Workbench.Tests;

public sealed class RecordingTextTests
{
    [Theory]
    [InlineData("33.5", 33.5)]
    [InlineData("33,5", 33.5)]
    [InlineData(" +33,5 ", 33.5)]
    [InlineData("-2", -2)]
    [InlineData("\u22122,5", -2.5)]
    [InlineData(".5", 0.5)]
    [InlineData("5.", 5)]
    [InlineData("12 500", 12500)]
    [InlineData("12\u202f500,25", 12500.25)]
    [InlineData("12\u00a0500", 12500)]
    [InlineData("12'500.5", 12500.5)]
    [InlineData("1,234.5", 1234.5)]
    [InlineData("1.234,5", 1234.5)]
    [InlineData("2,000,000", 2000000)]
    [InlineData("2.000.000", 2000000)]
    [InlineData("2e6", 2000000)]
    [InlineData("1.5E-3", 0.0015)]
    public void A_number_is_read_as_people_write_it(string typed, double value)
    {
        var read = NumberText.Parse(typed, "number");
        Assert.True(read.Succeeded, read.Reason?.ToString());
        Assert.Equal(value, read.Value.Value, 1e-12 * Math.Abs(value));
    }

    [Theory]
    [InlineData("1,025", 1.025, 1025)]
    [InlineData("12,500", 12.5, 12500)]
    public void One_comma_before_three_figures_has_two_readings(string typed, double value, double other)
    {
        var read = NumberText.Parse(typed, "number").Value;
        Assert.Equal(value, read.Value);
        Assert.Equal(other, read.Otherwise);
    }

    [Theory]
    [InlineData("0,125")]
    [InlineData("1.025")]
    [InlineData("1,25")]
    [InlineData("1,0250")]
    [InlineData("1234,500")]
    [InlineData("1,234.500")]
    public void Other_numbers_have_one_reading(string typed) =>
        Assert.Null(NumberText.Parse(typed, "number").Value.Otherwise);

    [Theory]
    [InlineData("", "number-missing", null)]
    [InlineData("  ", "number-missing", null)]
    [InlineData("NaN", "number-not-read", 1)]
    [InlineData("inf", "number-not-read", 1)]
    [InlineData("∞", "number-not-read", 1)]
    [InlineData("3-4", "number-not-read", 2)]
    [InlineData("1..2", "number-not-read", 3)]
    [InlineData("12 50", "number-not-read", 5)]
    [InlineData("1234 500", "number-not-read", 5)]
    [InlineData("1,2.3,4", "number-not-read", null)]
    [InlineData("-", "number-not-read", 2)]
    [InlineData("1e", "number-not-read", 2)]
    [InlineData("1e999", "number-not-read", null)]
    [InlineData("11111111112222222222333333333344444444445", "number-too-long", null)]
    public void What_is_no_number_gets_a_reason_with_its_place(string typed, string code, int? place)
    {
        var read = NumberText.Parse(typed, "salinity");
        Assert.False(read.Succeeded);
        Assert.Equal(code, read.Reason.Code);
        Assert.Equal("salinity", read.Reason["field"]);
        if (place is not null)
        {
            Assert.Equal(place, read.Reason["place"]);
        }
    }

    [Fact]
    public void No_text_throws_and_none_gives_a_number_that_is_not_finite() =>
        Gen.Char["0123456789.,-+eE '\u202fNaif"]
            .Array[0, 14]
            .Sample(letters =>
            {
                var read = NumberText.Parse(new string(letters), "n");
                return !read.Succeeded || double.IsFinite(read.Value.Value);
            });

    [Fact]
    public void Every_number_is_read_back_with_point_and_with_comma() =>
        Gen.Double[-1e9, 1e9]
            .Sample(value =>
            {
                var text = value.ToString("0.############");
                return NumberText.Parse(text, "n").Value.Value == double.Parse(text)
                    && NumberText.Parse(text.Replace('.', ','), "n").Value.Value == double.Parse(text);
            });

    [Theory]
    [InlineData("350 mL", Dimension.Volume, "mL", 350)]
    [InlineData("1,5 L", Dimension.Volume, "L", 1.5)]
    [InlineData("2 qt", Dimension.Volume, "[qt_us]", 2)]
    [InlineData("0.5gal", Dimension.Volume, "[gal_us]", 0.5)]
    [InlineData("76F", Dimension.Temperature, "[degF]", 76)]
    [InlineData("24,5 °C", Dimension.Temperature, "Cel", 24.5)]
    [InlineData("33,5 ppt", Dimension.Salinity, "sal:practical", 33.5)]
    [InlineData("33.5 psu", Dimension.Salinity, "sal:practical", 33.5)]
    [InlineData("35.2 g/kg", Dimension.Salinity, "sal:g/kg", 35.2)]
    [InlineData("38 g/L water", Dimension.Salinity, "sal:mix-g/L-water", 38)]
    [InlineData("38 g/L finished", Dimension.Salinity, "sal:mix-g/L", 38)]
    [InlineData("90 % of sea water", Dimension.Salinity, "sal:percent-sea", 90)]
    [InlineData("1.0264 sg", Dimension.Salinity, "sal:sg", 1.0264)]
    [InlineData("1,0264 sg 25/25", Dimension.Salinity, "sal:sg-25/25", 1.0264)]
    [InlineData("1.025 SG 60F/60F", Dimension.Salinity, "sal:sg-60F/60F", 1.025)]
    [InlineData("53 mS/cm at 25 C", Dimension.Salinity, "sal:mS/cm-25", 53)]
    [InlineData("53 mS/cm raw", Dimension.Salinity, "sal:mS/cm", 53)]
    [InlineData("53000 µS/cm 25", Dimension.Salinity, "sal:mS/cm-25", 53)]
    [InlineData("36 brine", Dimension.Salinity, "sal:brine-g/kg", 36)]
    [InlineData("19.4 chlorinity", Dimension.Salinity, "sal:chlorinity", 19.4)]
    [InlineData("0.5 TAN", Dimension.TotalAmmonia, "mg/L{TAN-N}", 0.5)]
    [InlineData("0.5 mg/L NH4", Dimension.TotalAmmonia, "mg/L{NH4}", 0.5)]
    [InlineData("0,02 NO2-N", Dimension.Nitrite, "mg/L{NO2-N}", 0.02)]
    [InlineData("0,02 mg/L as ion", Dimension.Nitrite, "mg/L{NO2}", 0.02)]
    [InlineData("2e6 cells/mL", Dimension.CellDensity, "{cells}/mL", 2e6)]
    [InlineData("4 % ", Dimension.Chlorine, "g/L{Cl2}", 40)]
    public void An_amount_is_read_with_the_unit_that_was_typed(
        string typed,
        Dimension dimension,
        string unit,
        double value
    )
    {
        var read = AmountText.Parse(typed, "amount", dimension);
        Assert.True(read.Succeeded, read.Reason?.ToString());
        Assert.Equal(unit, read.Value.Unit);
        Assert.Equal(value, read.Value.Value, 1e-9 * value);
        Assert.Equal(typed.Trim(), read.Value.Typed);
    }

    [Fact]
    public void A_unit_is_taken_for_granted_only_where_one_is_given()
    {
        Assert.Equal("Cel", AmountText.Parse("24,5", "t", Dimension.Temperature, "Cel").Value.Unit);
        Assert.Equal("unit-missing", AmountText.Parse("24,5", "t", Dimension.Temperature).Reason?.Code);
    }

    [Theory]
    [InlineData("35 g/L", Dimension.Salinity)]
    [InlineData("53 mS/cm", Dimension.Salinity)]
    [InlineData("0.5 mg/L", Dimension.TotalAmmonia)]
    [InlineData("0.5 ppm", Dimension.Nitrite)]
    [InlineData("10 mg/L", Dimension.Nitrate)]
    public void What_leaves_the_meaning_open_is_asked_back_with_the_choices(string typed, Dimension dimension)
    {
        var reason = AmountText.Parse(typed, "amount", dimension).Reason;
        Assert.Equal("unit-says-too-little", reason?.Code);
        var choices = ((string)reason!["allowed"]!).Split(", ");
        Assert.Equal(2, choices.Length);
        Assert.All(choices, code => Assert.Equal(dimension, UnitCode.Find(code)?.Dimension));
    }

    [Theory]
    [InlineData("5 kg", "unit-of-another-kind")]
    [InlineData("5 furlongs", "unit-not-understood")]
    [InlineData("L", "number-not-read")]
    [InlineData("", "number-missing")]
    public void A_unit_that_does_not_fit_gets_a_reason(string typed, string code) =>
        Assert.Equal(code, AmountText.Parse(typed, "volume", Dimension.Volume, "L").Reason?.Code);

    [Fact]
    public void Every_unit_of_the_journal_is_read_by_its_own_code()
    {
        foreach (var unit in UnitCode.All)
        {
            var read = AmountText.Parse($"2 {unit.Code}", "amount", unit.Dimension);
            // The code "1" is a figure to a reader of numbers: a plain number has no unit to type.
            if (unit.Code != "1")
            {
                Assert.True(read.Succeeded, $"{unit.Code}: {read.Reason}");
                Assert.Equal(unit.Code, read.Value.Unit);
            }
        }
    }
}
