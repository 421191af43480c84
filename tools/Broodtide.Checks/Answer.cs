namespace Broodtide.Checks;

/// <summary>What the library answers: numbers, or a refusal.</summary>
/// <param name="Numbers">The numbers; none where it refused.</param>
/// <param name="Refusal">Why it refused, if it did.</param>
public sealed record Answer(IReadOnlyList<double> Numbers, string? Refusal)
{
    /// <summary>Whether the inputs were refused, by an exception or by NaN.</summary>
    public bool IsRefusal => Refusal is not null || (Numbers is [var only] && double.IsNaN(only));

    /// <summary>Asks the library.</summary>
    /// <exception cref="CheckFormatException">The inputs do not fit the quantity.</exception>
    public static Answer Of(Quantity quantity, CheckInputs inputs, CheckSurroundings surroundings)
    {
        try
        {
            return new(quantity.Compute(inputs, surroundings), null);
        }
        catch (Exception refusal) when (refusal is ArgumentException or ArithmeticException)
        {
            return new([], refusal.Message.ReplaceLineEndings(" "));
        }
    }

    /// <summary>Whether this is what a check wants.</summary>
    public bool Meets(CheckRow check)
    {
        if (check.ExpectsRefusal || IsRefusal)
        {
            return check.ExpectsRefusal && IsRefusal;
        }

        return Numbers.Count == check.Expected.Count
            && Numbers
                .Zip(check.Expected)
                .All(pair =>
                    Math.Abs(pair.First - pair.Second) <= check.Tolerance || pair.First.Equals(pair.Second)
                );
    }

    /// <summary>For a person.</summary>
    public override string ToString() =>
        Refusal is null ? CheckRunner.Written(Numbers) : $"a refusal ({Refusal})";
}
