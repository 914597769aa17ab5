using JpegLibrary;

namespace Lastoff.Storing;

/// <summary>Whether bytes are a photo: a JPEG file (ITU-T T.81) that can be decoded from its first byte to its last.</summary>
internal static class Jpeg
{
    /// <summary>Longer than any device makes them; a small file that claims more pixels than memory holds is not decoded.</summary>
    private const int LongestSide = 4096;

    /// <summary>Why it is none, as the end of a sentence; null when it is one.</summary>
    public static string? Fault(ReadOnlyMemory<byte> file)
    {
        try
        {
            var decoder = new JpegDecoder();
            decoder.SetInput(file);
            decoder.Identify();
            if (decoder.Width is < 1 or > LongestSide || decoder.Height is < 1 or > LongestSide)
            {
                return $"it claims to be {decoder.Width} by {decoder.Height} pixels, and {LongestSide} are the most on a side";
            }

            decoder.SetOutputWriter(new Nowhere());
            decoder.Decode();
            // End of image, and nothing hidden behind it.
            return file.Span is [.., 0xFF, 0xD9] ? null : "it does not end where the picture ends";
        }
        // The decoder throws what it likes on bytes that are no picture.
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            return "it cannot be read as a JPEG picture";
        }
    }

    private sealed class Nowhere : JpegBlockOutputWriter
    {
        public override void WriteBlock(ref short blockRef, int componentIndex, int x, int y)
        {
        }
    }
}
