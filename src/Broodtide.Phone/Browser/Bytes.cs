using System.Runtime.InteropServices.JavaScript;

namespace Broodtide.Phone.Browser;

/// <summary>Bytes carried across the border in one copy, without text between.</summary>
internal static class Bytes
{
    public static JSObject ToScript(ReadOnlySpan<byte> bytes)
    {
        // The generated call wants a writable span; the script only reads it.
        var copy = bytes.ToArray();
        return Glue.Give(copy);
    }

    public static byte[] FromScript(JSObject array)
    {
        using (array)
        {
            var bytes = new byte[array.GetPropertyAsInt32("length")];
            Glue.Take(array, bytes);
            return bytes;
        }
    }
}
