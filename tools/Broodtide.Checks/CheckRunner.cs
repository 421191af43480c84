namespace Broodtide.Checks;

/// <summary>Computes checks through the public doors of the library and compares.</summary>
public static class CheckRunner
{
    /// <summary>Runs one line of a check file.</summary>
    public static CheckOutcome Run(ReadRow row, CheckSurroundings surroundings)
    {
        if (row.Check is not { } check)
        {
            return new(row.Line, CheckVerdict.Failed, $"malformed: {row.Problem}");
        }

        if (QuantityRegistry.Find(check.Quantity) is not { } quantity)
        {
            return new(row.Line, CheckVerdict.Unknown, $"unknown quantity {check.Quantity}");
        }

        try
        {
            var answer = Answer.Of(quantity, check.Inputs, surroundings);
            return answer.Meets(check)
                ? new(row.Line, CheckVerdict.Passed, "")
                : new(
                    row.Line,
                    CheckVerdict.Failed,
                    $"{check.Quantity} {check.Inputs}: expected {Written(check.Expected)}, found {answer}, "
                        + $"tolerance {check.Tolerance:R}"
                );
        }
        catch (CheckFormatException problem)
        {
            return new(row.Line, CheckVerdict.Failed, $"malformed: {check.Quantity}: {problem.Message}");
        }
    }

    /// <summary>Numbers as the check files write them.</summary>
    public static string Written(IReadOnlyList<double> numbers) =>
        numbers is [var only]
            ? $"{only:R}"
            : $"[{string.Join(" ", numbers.Select(number => $"{number:R}"))}]";
}
