using QRCoder;

namespace Broodtide.Server.Trust;

/// <summary>An address as a square code: for a page, and for a terminal.</summary>
internal static class SquareCode
{
    private const int PixelsPerModule = 6;

    /// <summary>As a picture. Black on white whatever the ground of the page, as cameras want it.</summary>
    public static string Svg(string address)
    {
        using var data = QRCodeGenerator.GenerateQrCode(address, QRCodeGenerator.ECCLevel.M);
        using var code = new SvgQRCode(data);
        return code.GetGraphic(PixelsPerModule, "#000000", "#ffffff");
    }

    /// <summary>As half blocks, two modules a letter; dark terminals show it the right way round.</summary>
    public static string Text(string address)
    {
        using var data = QRCodeGenerator.GenerateQrCode(address, QRCodeGenerator.ECCLevel.M);
        using var code = new AsciiQRCode(data);
        return code.GetGraphicSmall(drawQuietZones: true);
    }
}
