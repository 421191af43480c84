using System.Runtime.InteropServices.JavaScript;
using Broodtide.Phone.Browser;
using Broodtide.Science.Imaging;
using Broodtide.Units;
using Broodtide.Workbench.Photos;

namespace Broodtide.Phone.Looking;

/// <summary>A picture decoded by the browser, upright.</summary>
/// <param name="Shape">Its shape as decoded.</param>
/// <param name="Colours">Four bytes a pixel, row after row: red, green, blue, one unused.</param>
/// <param name="Whole">The shape of the picture as it was taken.</param>
public sealed record DecodedPicture(GridShape Shape, byte[] Colours, GridShape Whole)
{
    /// <summary>How many pixels of the whole lie along one of the decoded.</summary>
    public double Reduced => (double)Whole.Across / Shape.Across;

    /// <summary>As the script hands one out.</summary>
    internal static DecodedPicture FromScript(JSObject decoded)
    {
        using var pixels = decoded.GetPropertyAsJSObject("pixels")!;
        var colours = Bytes.FromScript(pixels);
        return new(
            new(decoded.GetPropertyAsInt32("across"), decoded.GetPropertyAsInt32("down")),
            colours,
            new(decoded.GetPropertyAsInt32("wholeAcross"), decoded.GetPropertyAsInt32("wholeDown"))
        );
    }

    /// <summary>Brightness, 0 to 255 (<see cref="Channels.Grey"/>).</summary>
    public float[] ToGrey()
    {
        var grey = new float[Shape.Count];
        Channels.Grey(Colours, grey);
        return grey;
    }
}

/// <summary>
/// Pictures that were taken or chosen on this page. The files stay in the browser; each is read and decoded when asked
/// for, and let go before the next one.
/// </summary>
public sealed class ChosenPictures(string key) : IDisposable
{
    /// <summary>How many there are.</summary>
    public int Count { get; private set; }

    /// <summary>Takes over what a field for files holds; <paramref name="add"/> keeps those chosen before.</summary>
    public async Task<int> TakeAsync(string fieldId, bool add)
    {
        await LookingGlue.Load();
        return Count = LookingGlue.Take(key, fieldId, add);
    }

    /// <summary>Takes a picture that is kept already, in place of those chosen.</summary>
    public async Task PutAsync(string name, byte[] file)
    {
        await LookingGlue.Load();
        using var bytes = Bytes.ToScript(file);
        LookingGlue.Put(key, name, bytes);
        Count = 1;
    }

    public string NameOf(int at) => LookingGlue.NameOf(key, at);

    /// <summary>Leaves one out.</summary>
    public void Leave(int at)
    {
        LookingGlue.Leave(key, at);
        Count--;
    }

    /// <summary>The file as it would be kept: looked at, without what is not the picture; or why not.</summary>
    public async Task<Parsed<PhotoTaken>> FileAsync(int at)
    {
        // Before a byte is read.
        if (LookingGlue.SizeOf(key, at) is var bytes and > PhotoLimits.LargestFileBytes)
        {
            return Parsed<PhotoTaken>.No(PhotoIntake.TooLarge((long)bytes));
        }

        return await LookingGlue.BytesOf(key, at) is { } file
            ? PhotoIntake.Take(Bytes.FromScript(file))
            : Parsed<PhotoTaken>.No("photo-not-shown");
    }

    /// <summary>The picture, its longer side no longer than wanted; ask <see cref="FileAsync"/> first.</summary>
    public async Task<Parsed<DecodedPicture>> DecodeAsync(int at, int longestSide)
    {
        using var decoded = await LookingGlue.Decode(key, at, longestSide);
        return decoded is null
            ? Parsed<DecodedPicture>.No("photo-not-shown")
            : Parsed<DecodedPicture>.Of(DecodedPicture.FromScript(decoded));
    }

    /// <summary>An address that a picture can show until <see cref="Hide"/>.</summary>
    public string Show(int at) => LookingGlue.Show(key, at);

    public static void Hide(string address) => LookingGlue.Hide(address);

    public void Dispose()
    {
        if (Count > 0)
        {
            LookingGlue.LetGo(key);
            Count = 0;
        }
    }
}
