using Broodtide.Units;

namespace Broodtide.Domain.Journal;

/// <summary>
/// Writes a double as ECMAScript does (ECMA-262, Number::toString), which RFC 8785 section 3.2.2.3 demands. The
/// framework finds the same shortest digits but lays them out in another way (1E+21 instead of 1e+21).
/// </summary>
public static class EcmaNumber
{
    /// <summary>The text of a finite number.</summary>
    /// <exception cref="ArgumentOutOfRangeException">NaN or infinite.</exception>
    public static string Format(double value)
    {
        if (Finite.Required(value) == 0)
        {
            return "0";
        }

        // "E16" style text of the shortest digits: d.ddddE+xxx
        var shortest = Math.Abs(value).ToString("R");
        var (digits, point) = Decompose(shortest);
        var text = Layout(digits, point);
        return value < 0 ? "-" + text : text;
    }

    // Digits without leading and trailing zeros, and n such that the value is 0.digits times ten to the n.
    private static (string Digits, int Point) Decompose(string shortest)
    {
        var exponent = 0;
        var e = shortest.IndexOf('E', StringComparison.Ordinal);
        if (e >= 0)
        {
            exponent = int.Parse(shortest.AsSpan(e + 1));
            shortest = shortest[..e];
        }

        var dot = shortest.IndexOf('.', StringComparison.Ordinal);
        var whole = dot < 0 ? shortest : shortest[..dot];
        var digits = whole + (dot < 0 ? "" : shortest[(dot + 1)..]);
        var leading = digits.Length - digits.TrimStart('0').Length;
        return (digits.TrimStart('0').TrimEnd('0'), whole.Length - leading + exponent);
    }

    // The five cases of Number::toString with n = point and k = number of digits.
    private static string Layout(string digits, int point)
    {
        var count = digits.Length;
        return point switch
        {
            > 21 or <= -6 => Exponential(digits, point - 1),
            _ when point >= count => digits + new string('0', point - count),
            > 0 => digits[..point] + "." + digits[point..],
            _ => "0." + new string('0', -point) + digits,
        };
    }

    private static string Exponential(string digits, int exponent)
    {
        var mantissa = digits.Length == 1 ? digits : digits[..1] + "." + digits[1..];
        return mantissa + (exponent < 0 ? "e-" : "e+") + Math.Abs(exponent);
    }
}
