using System.Reflection;
using CsCheck;

namespace Broodtide.Units.Tests;

public sealed class GuardTests
{
    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void What_is_no_finite_number_passes_no_guard(double value)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Finite.Required(value));
        Assert.Throws<ArgumentOutOfRangeException>(() => Finite.NotNegative(value));
        Assert.Throws<ArgumentOutOfRangeException>(() => Finite.Positive(value));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            Finite.Within(value, double.NegativeInfinity, double.PositiveInfinity)
        );
        Assert.Throws<ArgumentOutOfRangeException>(() => Finite.Within(1, value, double.NaN));
    }

    [Fact]
    public void A_guard_gives_back_what_it_lets_through_and_names_what_it_does_not() =>
        Gen
            .Double.Where(double.IsFinite)
            .Sample(pressure =>
            {
                Assert.Equal(pressure, Finite.Required(pressure));
                if (pressure > 0)
                {
                    Assert.Equal(pressure, Finite.Positive(pressure));
                }
                else
                {
                    var thrown = Assert.Throws<ArgumentOutOfRangeException>(() => Finite.Positive(pressure));
                    Assert.Equal("pressure", thrown.ParamName);
                }

                if (pressure < 0)
                {
                    Assert.Throws<ArgumentOutOfRangeException>(() => Finite.NotNegative(pressure));
                }
                else
                {
                    Assert.Equal(pressure, Finite.NotNegative(pressure));
                }
            });

    [Fact]
    public void The_ends_of_a_range_belong_to_it()
    {
        Assert.Equal(1, Finite.Within(1, 1, 2));
        Assert.Equal(2, Finite.Within(2, 1, 2));
        Assert.Throws<ArgumentOutOfRangeException>(() => Finite.Within(Math.BitDecrement(1.0), 1, 2));
        Assert.Throws<ArgumentOutOfRangeException>(() => Finite.Within(Math.BitIncrement(2.0), 1, 2));
    }

    public static TheoryData<string> Comparables() =>
        [
            .. typeof(Finite)
                .Assembly.GetExportedTypes()
                .Where(type =>
                    type.IsValueType && typeof(IComparable<>).MakeGenericType(type).IsAssignableFrom(type)
                )
                .Select(type => type.Name),
        ];

    // Every quantity that can be compared is compared as the number it holds.
    [Theory]
    [MemberData(nameof(Comparables))]
    public void Quantities_are_ordered_as_their_numbers(string name)
    {
        var type = typeof(Finite).Assembly.GetExportedTypes().Single(type => type.Name == name);
        var maker = type.GetMethods(BindingFlags.Public | BindingFlags.Static)
            .First(method =>
                method.Name.StartsWith("From", StringComparison.Ordinal) && method.GetParameters().Length == 1
            );
        var compare = type.GetMethod("CompareTo", [type])!;
        foreach (var (x, y) in new[] { (0.2, 0.7), (0.7, 0.2), (0.5, 0.5) })
        {
            var (left, right) = (maker.Invoke(null, [x]), maker.Invoke(null, [y]));
            Assert.Equal(x.CompareTo(y), Math.Sign((int)compare.Invoke(left, [right])!));
            Assert.Equal(x < y, Operator("op_LessThan"));
            Assert.Equal(x > y, Operator("op_GreaterThan"));
            Assert.Equal(x <= y, Operator("op_LessThanOrEqual"));
            Assert.Equal(x >= y, Operator("op_GreaterThanOrEqual"));
            Assert.Equal(x == y, left!.Equals(right));

            bool Operator(string method) => (bool)type.GetMethod(method)!.Invoke(null, [left, right])!;
        }
    }

    [Fact]
    public void There_are_quantities_to_compare() =>
        Assert.True(Comparables().Count >= 8, $"{Comparables().Count}");
}
