using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using Broodtide.Workbench.Sensors;

namespace Broodtide.Fuzzing;

/// <summary>What comes over the broker, and day blocks under the name that would be right.</summary>
internal static class SensorReader
{
    public static void Read(byte[] bytes)
    {
        var (choice, rest) = Readers.Choose(bytes, 5);
        switch (choice)
        {
            case 0:
                SensorTopic.Read(Encoding.UTF8.GetString(rest));
                break;
            case 1:
                SensorMessages.ReadAbout(rest);
                break;
            case 2:
                SensorMessages.ReadReadings(rest);
                break;
            case 3:
                SensorMessages.ReadStatus(rest);
                break;
            default:
                using (var packed = new MemoryStream())
                {
                    using (var deflate = new DeflateStream(packed, CompressionLevel.Fastest, leaveOpen: true))
                    {
                        deflate.Write(rest);
                    }

                    DayBlock.Read(packed.ToArray(), Convert.ToHexStringLower(SHA256.HashData(rest)));
                }

                DayBlock.Read(rest, Convert.ToHexStringLower(SHA256.HashData(rest)));
                break;
        }
    }
}
