using Broodtide.Cli.Door;
using Broodtide.Cli.Feeding;
using Broodtide.Domain.Larvae;
using Broodtide.Science.Imaging.Lengths;
using Broodtide.Units;

namespace Broodtide.Cli.Looking;

/// <summary>The scale of a picture as it is said on the command line: by a number, or by the ticks of a ruler.</summary>
internal sealed class LookScale
{
    // A scale said as a number is taken as good to half a per cent: what a ruler's ticks give at worst.
    private const double SaidToShare = 0.005;

    private readonly Slot _perPixel = Slot.Option(
        "--um-per-px",
        "Micrometres a pixel; taken as good to half a per cent.",
        "NUMBER"
    );
    private readonly Slot _from = Slot.Option(
        "--scale-from",
        "A photo of a ruler, such as a stage micrometer, taken at the same magnification and size.",
        "PICTURE"
    );
    private readonly Slot _ticks = Slot.Option(
        "--ticks-um",
        "Micrometres from one tick of that ruler to the next.",
        "NUMBER"
    );

    public IReadOnlyList<Slot> All => [_perPixel, _from, _ticks];

    /// <summary>What the scale rests on.</summary>
    public ScaleBy By(Said said) => said.Text(_perPixel) is null ? ScaleBy.Ruler : ScaleBy.Number;

    /// <summary>The scale; none where something is wrong, which is then said, or refused, which is handed out.</summary>
    public async Task<(Interval? Scale, Remark? Refused)> ReadAsync(
        Said said,
        LookProgress progress,
        CancellationToken cancellation
    )
    {
        var ticks = FoodText.Number(said, _ticks, 1e-3, 1e6);
        if (FoodText.Number(said, _perPixel, 1e-6, 1e6) is { } number)
        {
            return (
                Interval.FromPoints(number * (1 - SaidToShare), number, number * (1 + SaidToShare)),
                null
            );
        }

        if (said.Text(_from) is null || ticks is null)
        {
            said.Add(new Remark("look-length-needs-scale"));
            return (null, null);
        }

        if (await PicturesRead.OneAsync(said, _from, cancellation) is not (_, var picture))
        {
            return (null, null);
        }

        progress.Say("Looking for ticks.");
        var found = RulerScale.Find(picture.ToGrey(), picture.Shape, ticks.Value);
        return found.Succeeded ? (found.Value.MicrometresPerPixel, null) : (null, found.Reason);
    }
}
