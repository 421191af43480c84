using Broodtide.Scenes;
using Broodtide.Units;

namespace Broodtide.Looking.Stress;

/// <summary>What became of one invented scene.</summary>
/// <param name="Facts">The scene.</param>
/// <param name="Number">The answer; none where it was refused.</param>
/// <param name="F1">Mean agreement of marks with truths over the frames.</param>
/// <param name="Frames">Frames in all.</param>
/// <param name="LeftOut">Frames whose count did not go in.</param>
/// <param name="FarOff">Frames that went in and whose marks are off by more than half, where there is a larva.</param>
/// <param name="Said">Codes said beside it, or the reason of the refusal.</param>
/// <param name="Marks">Marks of the frames that went in, on average.</param>
public sealed record Outcome(
    SceneFacts Facts,
    Interval? Number,
    double F1,
    int Frames,
    int LeftOut,
    int FarOff,
    string Said,
    double Marks
)
{
    public bool Holds => Number is { } number && number.Contains(Facts.Number);

    public double Error =>
        Number is { } number ? (number.Middle - Facts.Number) / Math.Max(1, Facts.Number) : -1;

    public double Width => Number is { } number ? number.Width / Math.Max(1, Facts.Number) : double.NaN;
}
