REM What somebody without the extension writes: the strength between the entries of a table, which
REM is read once. Its sheet has readings 0 to 100 in column A, temperatures 0 to 40 in row 1.
Global table
Global known As Boolean

Function TableStrength(reading As Double, temperature As Double) As Double
    If Not known Then
        Dim book
        book = StarDesktop.Components.createEnumeration().nextElement()
        table = book.Sheets.getByName("Table").getCellRangeByName("A1:AP102").getDataArray()
        known = True
    End If
    Dim i As Integer, k As Integer
    i = Int(reading)
    k = Int(temperature)
    Dim p As Double, q As Double
    p = reading - i
    q = temperature - k
    Dim low, high
    low = table(i + 1)
    high = table(i + 2)
    TableStrength = (1 - p) * ((1 - q) * low(k + 1) + q * low(k + 2)) _
                  + p * ((1 - q) * high(k + 1) + q * high(k + 2))
End Function
