namespace Broodtide.Checks;

/// <summary>What became of a line of a check file.</summary>
public enum CheckVerdict
{
    /// <summary>The library gives what is expected.</summary>
    Passed,

    /// <summary>It gives something else, or the line is malformed.</summary>
    Failed,

    /// <summary>No quantity of this name.</summary>
    Unknown,
}

/// <summary>A verdict with its reason.</summary>
/// <param name="Line">Line in the file, from 1.</param>
/// <param name="Verdict">What became of it.</param>
/// <param name="Words">For a person; empty for what passed.</param>
public sealed record CheckOutcome(int Line, CheckVerdict Verdict, string Words);
